using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
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
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
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
        using var still = PortalProcess.Start(site.Portal, _data, ";Maximum Pool Size=3");
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
            await StopInTheMidstAsync(still, held, here, batches);
            there.Zip(batches).ToList().ForEach(d => d.First.Take(d.Second));
            await Task.WhenAll(there.Zip(batches, (device, batch) => device.SendAsync(batch, Stop)));
            var found = await invariants.LookAsync(acts);
            table.Count();
            table.Count("stood still", acts, [.. batches.SelectMany(b => b).Select(SentActs.IdOf)], found);
            table.Count(found);
            if (fault == 0) // longer than the database lets an act stand still: the other portal goes on without the first
                run.Say(await WithoutTheFirstAsync(there, batches));
            else
                await Task.Delay(TimeSpan.FromSeconds(run.Chance.Next(1, 6)), Stop);
            await still.GoOnAsync();
            await AtRestAsync();
            await Task.WhenAll(there.Select(d => d.DrainAsync(Stop)));
            var unanswered = await Task.WhenAll(here.Zip(batches, UntilAnsweredAsync)); // the portal that stood still serves again, and says the same
            run.Say(string.Create(CultureInfo.InvariantCulture, $"The portal that had stood still left {unanswered.Sum()} requests without an answer before it served again."));
            table.Count(await invariants.LookAsync(acts));
        }
        here.Concat(there).ToList().ForEach(d => d.Dispose());
        await FinishAsync(run, table, invariants, acts);
    }

    /// <summary>The devices send, two of them are held in the midst of an act, the portal is stopped there, and the devices give up. Then nothing holds the database any more.</summary>
    private static async Task StopInTheMidstAsync(PortalProcess still, HeldOperations held, List<DeviceQueue> here, List<JsonElement[]> batches)
    {
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
    }

    /// <summary>Each device sends, and gives up after a second, until all that it has is answered.</summary>
    private static async Task<string> WithoutTheFirstAsync(List<DeviceQueue> there, List<JsonElement[]> batches)
    {
        var waited = Stopwatch.StartNew();
        await Task.WhenAll(there.Zip(batches, UntilAnsweredAsync));
        return string.Create(CultureInfo.InvariantCulture, $"The other portal had stored all of it {waited.Elapsed.TotalSeconds:0} s later, while the first still stood.");
    }

    /// <summary>Sends the same until it is answered, and gives how often it was not.</summary>
    private static async Task<int> UntilAnsweredAsync(DeviceQueue device, IReadOnlyList<JsonElement> batch)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(100));
        for (var unanswered = 0; ; unanswered++)
        {
            if (await device.SendAsync(batch, Stop))
                return unanswered;
            await pace.WaitForNextTickAsync(Stop);
        }
    }

    private async Task FinishAsync(FaultRun run, FaultTable table, Invariants invariants, SentActs acts)
    {
        table.Count(await invariants.LookAtTheEndAsync(acts));
        table.Count(await site.Portal.ChainAsync());
        run.Write(table);
        Assert.Empty(table.Broken);
        Assert.True(table.Unknown > 0, "A run in which every outcome was known has tested nothing.");
    }

    /// <summary>Waits until no portal has anything under way in the database.</summary>
    private async Task AtRestAsync()
    {
        await using var database = new NpgsqlConnection(Connection);
        await database.OpenAsync(Stop);
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(10));
        await using var asked = new NpgsqlCommand(
            "select count(*) from pg_stat_activity where datname = current_database() and backend_type = 'client backend' and pid <> pg_backend_pid() and state <> 'idle'", database);
        while (await asked.ExecuteScalarAsync(Stop) is not 0L)
            await pace.WaitForNextTickAsync(Stop);
    }
}
