using System.Diagnostics;
using System.Globalization;
using System.Net;
using TeamCircle.Core.Family;
using TeamCircle.Data;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Startup;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>
/// T2: PostgreSQL is killed with -9 under load: in turn its first process, all of its processes at once, and the one that serves a connection of the portal.
/// It runs with durability. The portal goes on and finds it again by itself.
/// </summary>
public sealed class DatabaseKillTests : IDisposable
{
    private const int Devices = 4;
    private readonly string _data = ScratchFolder.Make();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task Killed_database_loses_nothing_it_acknowledged_and_the_portal_finds_it_again()
    {
        Assert.SkipUnless(FaultRun.IsLong, "Long form only: TEAMCIRCLE_FAULTS names how many kills.");
        var run = FaultRun.Begin("kill-database", inTheSuite: 0);
        var table = new FaultTable();
        await using var server = await DurableServer.StartAsync(Path.Combine(_data, "postgres"));
        await using var databases = await PgAssembly.OnAsync(server);
        await using var portal = new RecordingPortal(databases);
        await portal.InitializeAsync();
        using var load = await Load.CreateAsync(portal, Devices, TimeSpan.FromSeconds(40));
        using var running = PortalProcess.Start(portal, Path.Combine(_data, "portal"));
        await load.TurnToAsync(await running.AddressAsync());
        await load.SendUntilAsync(() => Task.CompletedTask, Stop); // the first request of a portal takes longer than a fault waits
        var back = new List<(TimeSpan Took, int Refused)>();
        try
        {
            for (var fault = 0; fault < run.Faults; fault++)
                back.Add(await KillAsync(server, portal, load, table, run, fault));
            await load.FinishAsync(table, Stop);
            run.Say(await AmCheck.RunAsync(server, portal.Database.Name, Stop));
        }
        finally
        {
            run.Say(string.Create(CultureInfo.InvariantCulture, $"After the database stood again, all that was open was stored within {back.DefaultIfEmpty().Max(b => b.Took).TotalSeconds:0.0} s, with {back.Sum(b => b.Refused)} requests in all that were not answered on the way. In place of answers came {load.InsteadOfAnswers}."));
            run.Write(table);
        }
        Assert.Empty(table.Broken);
        Assert.True(table.Unknown > 0, "A run in which every outcome was known has tested nothing.");
    }

    private async Task<(TimeSpan Took, int Refused)> KillAsync(DurableServer server, RecordingPortal portal, Load load, FaultTable table, FaultRun run, int fault)
    {
        var (kind, after) = (fault % 3, TimeSpan.FromMilliseconds(run.Chance.Next(30, 400)));
        var sent = await load.SendUntilAsync(async () =>
        {
            await Task.Delay(after, Stop);
            if (kind == 1)
                Assert.True(await server.KillBackendAsync(portal.Database.Name, Migrate.App));
            else
                await server.KillAsync(all: kind == 2);
        }, Stop);
        if (kind != 1)
        {
            await SaysThatItIsAwayAsync(load);
            await server.GoneAsync(Stop);
            await server.StartAgainAsync();
        }
        await server.RecoveredAsync();
        var waited = Stopwatch.StartNew();
        var found = await load.Invariants.LookAsync(load.Acts);
        table.Count();
        table.Count(kind switch { 0 => "first process", 1 => "one connection's process", _ => "all processes" }, load.Acts, sent, found);
        table.Count(found);
        var refused = await load.DrainAsync(Stop);
        return (waited.Elapsed, refused);
    }

    /// <summary>Without its database the portal answers a page with 503, in both languages, with the headers that every page has.</summary>
    private static async Task SaysThatItIsAwayAsync(Load load)
    {
        using var answer = await load.OpenAsync("/", Stop);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal(TimeSpan.FromSeconds(5), answer.Headers.RetryAfter?.Delta);
        Assert.True(answer.Headers.Contains("Content-Security-Policy"));
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Stop));
        Assert.Contains(FamilyGlossary.AwayForReading.In(Language.English), page, StringComparison.Ordinal);
        Assert.Contains(FamilyGlossary.AwayForReading.In(Language.Spanish), page, StringComparison.Ordinal);
    }
}
