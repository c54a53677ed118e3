using System.Diagnostics;
using System.Globalization;
using TeamCircle.Data;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Startup;

/// <summary>
/// T11: the stored database of the first release is brought up while its own portal serves devices and a mother; a portal of this release starts beside it, is taken
/// back, starts again, and the old one ends. tests/drills/upgrade-under-load.sh builds the old portal from the repository's history and names its folder.
/// </summary>
public sealed class UpgradeUnderLoadTests(PgAssembly server) : IDisposable
{
    private static readonly string? OldRelease = Environment.GetEnvironmentVariable("TEAMCIRCLE_OLD_PORTAL");
    private static readonly TimeSpan Awhile = TimeSpan.FromSeconds(2);
    private readonly string _data = ScratchFolder.Make();
    private readonly FaultTable _table = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task Upgrade_under_load_loses_and_refuses_nothing_and_each_page_is_answered()
    {
        Assert.SkipWhen(OldRelease is null, "Long form only: tests/drills/upgrade-under-load.sh builds an older portal and names it.");
        var run = FaultRun.Begin("upgrade", inTheSuite: 1);
        try
        {
            for (var upgrade = 0; upgrade < run.Faults; upgrade++)
                await UpgradeAsync(run, Path.Combine(_data, $"{upgrade}"));
        }
        finally
        {
            run.Write(_table);
        }
        Assert.Empty(_table.Broken);
        Assert.Equal(0, _table.Refused);
        Assert.True(_table.Unknown > 0, "A run in which every outcome was known has tested nothing.");
    }

    private async Task UpgradeAsync(FaultRun run, string folder)
    {
        await using var site = await UpgradedSite.CreateAsync(server, folder);
        using var old = site.Start(OldRelease);
        var was = await old.AddressAsync();
        await site.Load.TurnToAsync(was);
        await using var mother = await ReadingMother.StartAsync(site.Family, was);
        await LookAsync(site, "before", () => Task.Delay(Awhile, Stop));
        var migrating = Stopwatch.StartNew();
        await LookAsync(site, "it is migrated", () => Migrate.RunAsync(site.Database.ConnectionString(), stop: Stop));
        run.Say(string.Create(CultureInfo.InvariantCulture, $"Migrated, with a look at all of it, within {migrating.Elapsed.TotalSeconds:0.0} s; the longest that a page took until then: {mother.Longest.TotalSeconds:0.0} s."));
        using (var tried = site.Start())
        {
            await BesideAsync(site, mother, was, await StartedAsync(site, tried));
            await mother.ReadAtAsync(was);
            await LookAsync(site, "the new one is taken back", tried.StopAsync);
        }
        await site.Load.TurnToAsync(was);
        await LookAsync(site, "the old one alone again", () => Task.Delay(Awhile, Stop));
        using var next = site.Start();
        var now = await StartedAsync(site, next);
        await site.Load.TurnToAsync(was, now);
        await mother.ReadAtAsync(now);
        await LookAsync(site, "the old one ends", old.StopAsync);
        await site.Load.TurnToAsync(now);
        await LookAsync(site, "the new one alone", () => Task.Delay(Awhile, Stop));
        run.Say($"The mother's page: {await mother.FinishAsync()}. In place of answers devices got {site.Load.InsteadOfAnswers}.");
        await site.Load.DrainAsync(Stop);
        await site.Load.FinishAsync(_table, Stop);
    }

    /// <summary>A portal of this release starts while the old one serves.</summary>
    private async Task<Uri> StartedAsync(UpgradedSite site, PortalProcess portal)
    {
        Uri? address = null;
        await LookAsync(site, "the new one starts", async () => address = await portal.AddressAsync());
        return address!;
    }

    /// <summary>Both serve. The new one asks staff for a second step first; from then on each device is now at the one and now at the other.</summary>
    private async Task BesideAsync(UpgradedSite site, ReadingMother mother, Uri was, Uri now)
    {
        await mother.ReadAtAsync(was, now);
        await site.Load.TurnToAsync(was, now);
        await LookAsync(site, "both serve, and the second step is not set up", () => Task.Delay(Awhile, Stop));
        await site.SetUpSecondStepAsync();
        await site.Load.TurnToAsync(now);
        await site.Load.SignInAnewAsync();
        for (var turn = 0; turn < 4; turn++)
        {
            await site.Load.TurnToAsync(turn % 2 == 0 ? [was, now] : [now, was]);
            await LookAsync(site, "both serve", () => Task.Delay(Awhile / 2, Stop));
        }
    }

    /// <summary>Devices send until that is done, and then the database is looked at.</summary>
    private async Task LookAsync(UpgradedSite site, string what, Func<Task> done)
    {
        var sent = await site.Load.SendUntilAsync(done, Stop);
        var found = await site.Load.Invariants.LookAsync(site.Load.Acts);
        _table.Count();
        _table.Count(what, site.Load.Acts, sent, found);
        _table.Count(found);
    }
}
