using System.Diagnostics;
using System.Globalization;
using System.Net;
using NodaTime;
using Npgsql;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Access;
using TeamCircle.Web.Tests.Devices;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>
/// Devices save through a portal that goes by a primary and its standby; the primary is killed with -9, the standby is promoted, and the portal goes on. Run by name only
/// (docs/operations.md, "More than one server"); TEAMCIRCLE_FAILOVERS says how often, 3 times without it. The counts are written beside the tests, into failovers.txt.
/// </summary>
public sealed class FailoverTests(RecordingPortal arranged) : IClassFixture<RecordingPortal>, IDisposable
{
    private const int Devices = 4, Batch = 5, SavesBeforeTheKill = 150;
    private static readonly int Rounds = int.TryParse(Environment.GetEnvironmentVariable("TEAMCIRCLE_FAILOVERS"), CultureInfo.InvariantCulture, out var rounds) ? rounds : 3;
    private readonly string _data = ScratchFolder.Make();
    private readonly List<DeviceQueue> _queues = [];
    private readonly List<string> _lines = [];
    private TestPractice _practice = null!;
    private PortalProcess? _portal;
    private Uri _address = new("http://localhost");

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        _portal?.Dispose();
        _queues.ForEach(q => q.Dispose());
        NpgsqlConnection.ClearAllPools();
        Directory.Delete(_data, recursive: true);
    }

    [Fact(Explicit = true)]
    public async Task Nothing_acknowledged_is_lost_when_the_primary_is_killed_and_the_standby_takes_its_place()
    {
        Assert.SkipUnless(Directory.Exists(ReplicatedServers.Programs), "This machine has no " + ReplicatedServers.Programs);
        await using var servers = await ReplicatedServers.StartAsync(_data);
        var email = await ArrangeAsync(servers);
        var port = 0;
        for (var round = 1; round <= Rounds; round++)
        {
            await servers.AddStandbyAsync(port, waitForIt: true);
            await TurnAsync(servers);
            using var signedIn = new HttpClient { BaseAddress = _address };
            await signedIn.SignInWithCodeAsync(email);
            await ReadFromStandbyAsync(servers, signedIn);
            port = await FailOverAsync(servers, signedIn, round);
            Assert.Equal(0, await LostAsync(servers));
        }
        await servers.AddStandbyAsync(port, waitForIt: false);
        await TurnAsync(servers);
        await ControlAsync(servers);
        await File.WriteAllLinesAsync(Path.Combine(AppContext.BaseDirectory, "failovers.txt"), _lines, Stop);
    }

    /// <summary>The agency of the class on the two servers: by a backup of its database, which is of another version of PostgreSQL.</summary>
    private async Task<string> ArrangeAsync(ReplicatedServers servers)
    {
        var person = await arranged.Agency.AddAsync(new PersonRow { Email = "tomasz@tallowfern.example", Name = "Tomasz Abiolek" });
        await arranged.Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = new(2000, 1, 1) });
        await arranged.Agency.AddAsync(new RelationRow { PersonId = person.Id, LearnerId = arranged.Team.Wren, Kind = Relation.Team, FromDay = new(2000, 1, 1) });
        await arranged.AddAccountsAsync();
        await arranged.GiveCodesAsync(person.Email);
        _practice = await TestPractice.CreateAsync(arranged.Agency, arranged.Team);
        for (var i = 0; i < Devices; i++)
            _queues.Add(new(person.Email, await _practice.DeviceAsync(arranged.Team, person.Id, $"Tablet {i}")));
        var file = Path.Combine(_data, "arranged.zip");
        await new TakeBackup(TimeProvider.System).RunAsync(arranged.Database.ConnectionString(), file, _ => { }, Stop);
        await RestoreBackup.RunAsync(servers.Primary.Connection(), file, _ => { }, Stop);
        await servers.Primary.Server.AllowSignInAsync(Stop);
        return person.Email;
    }

    private async Task TurnAsync(ReplicatedServers servers)
    {
        if (_portal is not null)
            await _portal.StopAsync();
        _portal?.Dispose();
        _portal = PortalProcess.Start(Path.Combine(_data, "portal"), connectionString: servers.ToBoth("primary"), plainHttp: true, settings: new Dictionary<string, string>
        {
            ["ConnectionStrings__TeamCircleReads"] = servers.ToBoth("prefer-standby"),
            ["Limits__PersonEachMinute"] = "1000000",
            ["Limits__AddressEachMinute"] = "1000000",
            ["Limits__SignInsEachMinute"] = "1000000",
        });
        var address = await _portal.AddressAsync();
        foreach (var queue in _queues)
            await queue.TurnToAsync(address);
        _address = address;
    }

    /// <summary>The audit is read from the standby and says so, and the record of access is on the primary before it is shown.</summary>
    private static async Task ReadFromStandbyAsync(ReplicatedServers servers, HttpClient signedIn)
    {
        const string Accesses = "select count(*) from portal.accesses where page like '%audit%' or page like '%Audit%'";
        var before = (long)(await ReplicatedServers.AskAsync(servers.Primary.Connection(), Accesses))!;

        var page = await signedIn.GetStringAsync(new Uri("/audit", UriKind.Relative), Stop);

        Assert.Contains("read from a standby of the database", page, StringComparison.Ordinal);
        Assert.Equal(before + 1, await ReplicatedServers.AskAsync(servers.Primary.Connection(), Accesses));
        Assert.NotEqual(0L, await ReplicatedServers.AskAsync(servers.Standby!.Connection("postgres"), "select count(*) from pg_stat_activity where application_name = 'TeamCircle reads'"));
    }

    /// <summary>Kills the primary under load and promotes the standby; gives the port of the dead one.</summary>
    private async Task<int> FailOverAsync(ReplicatedServers servers, HttpClient signedIn, int round)
    {
        var acknowledged = Acknowledged;
        using var end = new CancellationTokenSource();
        var sending = _queues.Select(q => SendOnAsync(q, end.Token)).ToList();
        await UntilAsync(() => Acknowledged >= acknowledged + SavesBeforeTheKill);
        servers.KillPrimary();
        var dead = Stopwatch.StartNew();
        await NotShownAsync(signedIn);
        var port = await servers.PromoteAsync();
        var promoted = dead.Elapsed;
        var at = Acknowledged;
        await UntilAsync(() => Acknowledged > at);
        var going = dead.Elapsed;
        await UntilAsync(() => Acknowledged >= at + SavesBeforeTheKill);
        await end.CancelAsync();
        await Task.WhenAll(sending);
        _lines.Add(string.Create(CultureInfo.InvariantCulture,
            $"round {round}: acknowledged {Acknowledged - acknowledged}, sent and never answered {_queues.Sum(q => q.Unknown.Count)} so far; promoted {promoted.TotalSeconds:0.0} s after the kill, first save {going.TotalSeconds:0.0} s after it"));
        return port;
    }

    /// <summary>With the primary dead no record of access can be written, so nothing of a learner is shown, though the standby could be read.</summary>
    private static async Task NotShownAsync(HttpClient signedIn)
    {
        using var answer = await signedIn.GetAsync(new Uri("/audit", UriKind.Relative), Stop);
        Assert.True(answer.StatusCode >= HttpStatusCode.InternalServerError, $"{answer.StatusCode}");
    }

    /// <summary>What must fail: no commit waits for the standby, which is down when the primary is killed.</summary>
    private async Task ControlAsync(ReplicatedServers servers)
    {
        await servers.StopStandbyAsync();
        using var end = new CancellationTokenSource();
        var (before, sending) = (Acknowledged, _queues.Select(q => SendOnAsync(q, end.Token)).ToList());
        await UntilAsync(() => Acknowledged >= before + SavesBeforeTheKill);
        servers.KillPrimary();
        await end.CancelAsync();
        await Task.WhenAll(sending);
        await servers.StartStandbyAsync();
        await servers.PromoteAsync();
        var lost = await LostAsync(servers);
        _lines.Add(string.Create(CultureInfo.InvariantCulture, $"control, no commit waits and the standby is down: {lost} of {Acknowledged - before} acknowledged were lost"));
        Assert.True(lost >= SavesBeforeTheKill);
    }

    private int Acknowledged => _queues.Sum(q => q.Acknowledged.Count);

    /// <summary>INV1 (docs/reliability.md): how many were acknowledged and are not there.</summary>
    private async Task<int> LostAsync(ReplicatedServers servers)
    {
        await using var source = NpgsqlDataSource.Create(servers.Primary.Connection());
        await using var asked = source.CreateCommand("select id from portal.operations where state in ('Stored', 'SetAside')");
        await using var reader = await asked.ExecuteReaderAsync(Stop);
        var found = new HashSet<Guid>();
        while (await reader.ReadAsync(Stop))
            found.Add(reader.GetGuid(0));
        return _queues.Sum(q => q.Acknowledged.Keys.Count(id => !found.Contains(id)));
    }

    /// <summary>As a device does: what is not acknowledged is sent again, and new comes to it.</summary>
    private async Task SendOnAsync(DeviceQueue queue, CancellationToken end)
    {
        while (!end.IsCancellationRequested)
        {
            if (queue.Waiting.Count < Batch)
                queue.Put([.. Enumerable.Range(0, Batch).Select(_ => _practice.Sent(
                    _practice.Record() with { StartedAt = Instant.FromUtc(2020, 9, 15, 16, 10), EndedAt = Instant.FromUtc(2020, 9, 15, 16, 15) }))]);
            await queue.SendAsync(50, CancellationToken.None);
        }
    }

    private static async Task UntilAsync(Func<bool> reached)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
        var patience = Stopwatch.StartNew();
        while (!reached())
        {
            Assert.True(patience.Elapsed < TimeSpan.FromMinutes(2), "It did not come to that in two minutes.");
            await pace.WaitForNextTickAsync(Stop);
        }
    }
}
