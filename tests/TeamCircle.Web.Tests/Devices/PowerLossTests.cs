using System.Globalization;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Startup;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>
/// T2b: the power of the database's disk is cut under load, so that all is gone that was not flushed (docs/decisions/0032). The control is the same without
/// fsync: it must lose what was acknowledged, or the test is blind. Long form only, as root on Linux.
/// </summary>
public sealed class PowerLossTests : IDisposable
{
    private const int Devices = 4, Controls = 3, Megabytes = 700;

    /// <summary>So many acts are acknowledged after the last flush and before a cut: else it could lose none.</summary>
    private const int AcknowledgedFirst = FaultTeam.Batch * Devices;
    private readonly string _data = ScratchFolder.Make();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task Cut_power_loses_nothing_that_was_acknowledged_and_without_fsync_it_does()
    {
        Assert.SkipUnless(FaultRun.IsLong, "Long form only: TEAMCIRCLE_FAULTS names how many cuts.");
        Assert.SkipWhen(BreakableDisk.WhyNot is not null, BreakableDisk.WhyNot ?? "");
        var run = FaultRun.Begin("power-loss", inTheSuite: 0);
        var table = new FaultTable();
        try
        {
            await CutAsync(run, table);
            for (var control = 1; control <= Controls; control++)
                await ControlAsync(run, control);
        }
        finally
        {
            run.Write(table);
        }
        Assert.Empty(table.Broken);
        Assert.True(table.Unknown > 0, "A run in which every outcome was known has tested nothing.");
    }

    private async Task CutAsync(FaultRun run, FaultTable table)
    {
        await using var site = await Site.OpenAsync(Path.Combine(_data, "true"), durable: true);
        for (var cut = 0; cut < run.Faults; cut++)
        {
            var sent = await site.CutUnderLoadAsync(TimeSpan.FromMilliseconds(run.Chance.Next(0, 2000)));
            Assert.True(sent.Count(site.Load.Acts.Acknowledged.ContainsKey) >= AcknowledgedFirst, "Too little was acknowledged before the cut.");
            await site.Server.StartAgainAsync();
            await site.Server.RecoveredAsync();
            var found = await site.Load.Invariants.LookAsync(site.Load.Acts);
            table.Count();
            table.Count("power cut", site.Load.Acts, sent, found);
            table.Count(found);
            await site.Load.DrainAsync(Stop);
        }
        await site.Load.FinishAsync(table, Stop);
        run.Say(await AmCheck.RunAsync(site.Server, site.Portal.Database.Name, Stop));
    }

    /// <summary>Without fsync the database says "saved" too early: the same cut must show it.</summary>
    private async Task ControlAsync(FaultRun run, int control)
    {
        await using var site = await Site.OpenAsync(Path.Combine(_data, $"control-{control}"), durable: false);
        await site.CutUnderLoadAsync(TimeSpan.FromSeconds(1));
        string what;
        try
        {
            await site.Server.StartAgainAsync();
            var found = await site.Load.Invariants.LookAsync(site.Load.Acts);
            var lost = found.Broken.Count(b => b.StartsWith("INV1", StringComparison.Ordinal));
            Assert.True(lost > 0, "Without fsync nothing was lost: this test is blind.");
            what = string.Create(CultureInfo.InvariantCulture, $"{lost} of {site.Load.Acts.Acknowledged.Count} acknowledged acts were lost");
        }
        catch (Exception damaged) when (damaged is Npgsql.NpgsqlException or Data.StartupFailure)
        {
            what = $"the database is damaged and does not answer ({damaged.GetType().Name}), with {site.Load.Acts.Acknowledged.Count} acknowledged acts in it";
        }
        run.Say($"Control {control}, fsync off: {what}.");
    }

    /// <summary>A disk, a database on it, a portal beside it, and devices.</summary>
    private sealed class Site(BreakableDisk disk, DurableServer server, PgAssembly databases, RecordingPortal portal, PortalProcess running, Load load) : IAsyncDisposable
    {
        public DurableServer Server => server;
        public RecordingPortal Portal => portal;
        public Load Load => load;

        public static async Task<Site> OpenAsync(string folder, bool durable)
        {
            var disk = await BreakableDisk.Ext4Async(Path.Combine(folder, "image"), Megabytes);
            var server = await DurableServer.StartAsync(Path.Combine(disk.Root, "postgres"), durable);
            var databases = await PgAssembly.OnAsync(server);
            var portal = new RecordingPortal(databases);
            await portal.InitializeAsync();
            var load = await Load.CreateAsync(portal, Devices, TimeSpan.FromSeconds(40));
            var running = PortalProcess.Start(portal, Path.Combine(folder, "portal"));
            await load.TurnToAsync(await running.AddressAsync());
            await load.SendUntilAsync(() => Task.CompletedTask, Stop);
            return new(disk, server, databases, portal, running, load);
        }

        /// <param name="longer">How long the devices go on after the first acts were acknowledged.</param>
        /// <returns>All that was sent since the disk was last flushed.</returns>
        public async Task<IReadOnlyCollection<Guid>> CutUnderLoadAsync(TimeSpan longer)
        {
            await disk.FlushAsync();
            var sent = await load.SendUntilAsync(async () =>
            {
                await load.AcknowledgedAsync(AcknowledgedFirst, Stop);
                await Task.Delay(longer, Stop);
                disk.CutPower();
                await server.KillAsync(all: true);
            }, Stop);
            await disk.MountAgainAsync();
            await server.GoneAsync(Stop);
            return sent;
        }

        public async ValueTask DisposeAsync()
        {
            load.Dispose();
            running.Dispose();
            try
            {
                await portal.DisposeAsync();
                await databases.DisposeAsync();
            }
            catch (Exception gone) when (gone is Npgsql.NpgsqlException or InvalidOperationException) // a control's database may be beyond answering, or was not started again
            {
            }
            await server.DisposeAsync();
            await disk.DisposeAsync();
        }
    }
}
