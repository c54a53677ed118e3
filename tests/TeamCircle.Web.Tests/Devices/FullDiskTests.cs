using System.Globalization;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Startup;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>
/// T7: the room runs out under load, first for the database's data, then for its log of writes (pg_wal), then for the portal's own logs. Nothing is acknowledged
/// that is not there; once there is room again all goes on, and nothing is repaired by hand. Long form only, as root on Linux.
/// </summary>
public sealed class FullDiskTests : IDisposable
{
    private const int Devices = 4, DataMegabytes = 400, LogMegabytes = 200;
    private readonly string _data = ScratchFolder.Make();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task Full_disk_stops_the_saving_and_loses_nothing()
    {
        Assert.SkipUnless(FaultRun.IsLong, "Long form only: TEAMCIRCLE_FAULTS names how often each disk fills up.");
        Assert.SkipWhen(BreakableDisk.WhyNot is not null, BreakableDisk.WhyNot ?? "");
        var run = FaultRun.Begin("full-disk", inTheSuite: 0);
        var table = new FaultTable();
        await using var data = await BreakableDisk.InMemoryAsync(Path.Combine(_data, "data"), DataMegabytes);
        await using var wal = await BreakableDisk.InMemoryAsync(Path.Combine(_data, "wal"), LogMegabytes);
        await using var logs = await BreakableDisk.InMemoryAsync(Path.Combine(_data, "logs"), 8);
        await using var server = await DurableServer.StartAsync(Path.Combine(data.Root, "postgres"));
        await server.MoveLogOfWritesAsync(Path.Combine(wal.Root, "pg_wal"));
        await using var databases = await PgAssembly.OnAsync(server);
        await using var portal = new RecordingPortal(databases);
        await portal.InitializeAsync();
        using var load = await Load.CreateAsync(portal, Devices, TimeSpan.FromSeconds(40));
        using var running = PortalProcess.Start(portal, Path.Combine(logs.Root, "portal"));
        var address = await running.AddressAsync();
        await load.TurnToAsync(address);
        try
        {
            for (var round = 0; round < run.Faults; round++)
            {
                await FillAsync("data", data, server, address, load, table, run);
                await FillAsync("pg_wal", wal, server, address, load, table, run);
            }
            logs.Fill();
            Assert.Equal(0, await GoesOnAsync(load)); // a portal that can't write its log goes on
            run.Say("The portal's own log folder full: it went on.");
            await load.FinishAsync(table, Stop);
            run.Say(await AmCheck.RunAsync(server, portal.Database.Name, Stop));
        }
        finally
        {
            run.Write(table);
        }
        Assert.Empty(table.Broken);
        Assert.True(table.Unknown > 0, "A run in which every outcome was known has tested nothing.");
    }

    private static async Task FillAsync(string what, BreakableDisk disk, DurableServer server, Uri address, Load load, FaultTable table, FaultRun run)
    {
        var sent = await load.SendUntilAsync(async () =>
        {
            disk.Fill();
            await load.RefusedAsync(30, Stop);
        }, Stop);
        using (var browser = new HttpClient { BaseAddress = address })
            run.Say($"{what} full: /health/ready answers {(int)(await browser.GetAsync(new Uri("/health/ready", UriKind.Relative), Stop)).StatusCode}; in place of answers came, so far, {load.InsteadOfAnswers}.");
        disk.Free();
        await server.RunningAgainAsync();
        var found = await load.Invariants.LookAsync(load.Acts);
        table.Count();
        table.Count($"{what} full", load.Acts, sent, found);
        table.Count(found);
        var refused = await load.DrainAsync(Stop);
        run.Say(string.Create(CultureInfo.InvariantCulture, $"{what}: room again, {refused} requests unanswered before all was stored."));
    }

    private static async Task<int> GoesOnAsync(Load load)
    {
        await load.SendUntilAsync(() => Task.Delay(TimeSpan.FromSeconds(2), Stop), Stop);
        return await load.DrainAsync(Stop);
    }
}
