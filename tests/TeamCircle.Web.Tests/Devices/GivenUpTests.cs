using System.Globalization;
using Npgsql;
using TeamCircle.Data;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Startup;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>A portal on a real port, and what sends to it.</summary>
public sealed class ListeningPortal(PgAssembly server) : IAsyncLifetime
{
    public RecordingPortal Portal { get; } = new(server) { PlainHttp = true };

    public Uri Address => Portal.ClientOptions.BaseAddress;

    internal FaultTeam Team { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Portal.UseKestrel(0); // before anything asks for its services
        await Portal.InitializeAsync();
        Portal.StartServer();
        await HeldOperations.InstallAsync(Portal.Database.ConnectionString());
        Team = await FaultTeam.CreateAsync(Portal.Agency, Portal.Team);
    }

    public ValueTask DisposeAsync() => Portal.DisposeAsync();
}

/// <summary>T10 and T12: devices that give up waiting, because of the network or because the portal stands still, and send the same again another way.</summary>
public sealed class GivenUpTests(ListeningPortal site) : IClassFixture<ListeningPortal>, IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1), LongPause = TimeSpan.FromSeconds(60);
    private readonly string _data = ScratchFolder.Make();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Connection => site.Portal.Database.ConnectionString();

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task Whatever_the_network_does_each_act_is_stored_once()
    {
        var run = FaultRun.Begin("network", inTheSuite: 12);
        var (table, acts) = (new FaultTable(), new SentActs());
        var person = await site.Team.PersonAsync("by-wire");
        await site.Portal.AddAccountsAsync();
        var invariants = new Invariants(Connection, site.Portal.Agency.Id, [person.Id]);
        using var device = new DeviceQueue(person.Email, await site.Team.DeviceAsync(person), acts);
        await device.TurnToAsync(site.Address);
        for (var fault = 0; fault < run.Faults; fault++)
        {
            var (batch, trouble) = (site.Team.Acts(), (Trouble)(fault % Enum.GetValues<Trouble>().Length));
            device.Put(batch);
            using var wire = new Wire(site.Address, trouble);
            await device.TurnToAsync(wire.Address);
            using var enough = new CancellationTokenSource(trouble == Trouble.Late ? Patience : Timeout.InfiniteTimeSpan);
            Assert.Equal(trouble == Trouble.Twice, await device.SendAsync(batch, enough.Token, Stop));
            var found = await invariants.LookAsync(acts);
            table.Count();
            table.Count($"{trouble}", acts, [.. batch.Select(SentActs.IdOf)], found);
            table.Count(found);
            await device.TurnToAsync(site.Address);
            await device.DrainAsync(Stop);
            await wire.FinishAsync();
            table.Count(await invariants.LookAsync(acts));
        }
        await device.SendAllAgainAsync(Stop);
        await FinishAsync(run, table, invariants, acts);
    }

    /// <summary>A portal with three connections to its database, of which two are held in the midst of an act, is stopped by SIGSTOP. Four devices give up and send to another portal.</summary>
    [Fact]
    public async Task Portal_that_stood_still_doubles_nothing_that_was_sent_to_another_meanwhile()
    {
        Assert.SkipUnless(FaultRun.IsLong, "Long form only: TEAMCIRCLE_FAULTS names how many pauses.");
        var run = FaultRun.Begin("pause", inTheSuite: 0);
        var (table, acts) = (new FaultTable(), new SentActs());
        var person = await site.Team.PersonAsync("impatient");
        await site.Portal.AddAccountsAsync();
        await site.Portal.GiveCodesAsync(person.Email);
        var invariants = new Invariants(Connection, site.Portal.Agency.Id, [person.Id]);
        using var still = PortalProcess.Start(site.Portal, _data, ";Maximum Pool Size=3;Application Name=still");
        var first = await still.AddressAsync();
        await using var held = new HeldOperations(Connection);
        await held.OpenAsync();
        var (here, there) = (new List<DeviceQueue>(), new List<DeviceQueue>());
        for (var i = 0; i < 4; i++)
        {
            var device = await site.Team.DeviceAsync(person);
            here.Add(new(person.Email, device, acts));
            there.Add(new(person.Email, device, acts, Patience));
            await here[i].TurnToAsync(first);
            await there[i].TurnToAsync(site.Address);
        }
        for (var fault = 0; fault < run.Faults; fault++)
        {
            var batches = here.Select(_ => site.Team.Acts()).ToList();
            await held.HoldAsync([(SentActs.IdOf(batches[0][1]), Window.AfterInsert), (SentActs.IdOf(batches[1][1]), Window.BeforeCommit)]);
            using var enough = new CancellationTokenSource();
            var sending = here.Zip(batches, (device, batch) =>
            {
                device.Put(batch);
                return device.SendAsync(batch, enough.Token, Stop);
            }).ToList();
            await held.ReachedAsync(Stop);
            await still.PauseAsync();
            await enough.CancelAsync();
            await Task.WhenAll(sending);
            await held.ReleaseAsync();
            await Task.WhenAll(there.Zip(batches, (device, batch) =>
            {
                device.Take(batch);
                return device.SendAsync(batch, Stop);
            }));
            var found = await invariants.LookAsync(acts);
            table.Count();
            table.Count("stood still", acts, [.. batches.SelectMany(b => b).Select(SentActs.IdOf)], found);
            table.Count(found);
            await Task.Delay(FaultRun.IsLong ? fault == 0 ? LongPause : TimeSpan.FromSeconds(run.Chance.Next(1, 6)) : TimeSpan.Zero, Stop);
            await still.GoOnAsync();
            await AtRestAsync();
            await Task.WhenAll(there.Select(d => d.DrainAsync(Stop)));
            table.Count(await invariants.LookAsync(acts));
        }
        here.Concat(there).ToList().ForEach(d => d.Dispose());
        await FinishAsync(run, table, invariants, acts);
    }

    private async Task FinishAsync(FaultRun run, FaultTable table, Invariants invariants, SentActs acts)
    {
        table.Count(await invariants.LookAtTheEndAsync(acts));
        table.Count(await site.Portal.ChainAsync());
        run.Write(table);
        Assert.Empty(table.Broken);
        Assert.True(table.Unknown > 0, "A run in which every outcome was known has tested nothing.");
    }

    /// <summary>Waits until the portal that stood still has ended all that it had begun.</summary>
    private async Task AtRestAsync()
    {
        await using var database = new NpgsqlConnection(Connection);
        await database.OpenAsync(Stop);
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(10));
        await using var asked = new NpgsqlCommand("select count(*) from pg_stat_activity where application_name = 'still' and state <> 'idle'", database);
        while (await asked.ExecuteScalarAsync(Stop) is not 0L)
            await pace.WaitForNextTickAsync(Stop);
    }
}
