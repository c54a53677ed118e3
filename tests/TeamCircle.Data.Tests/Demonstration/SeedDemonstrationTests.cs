using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Demonstration;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Demonstration;

/// <summary>The demonstration stands on any day of the year, shows every status, and leaves something to do for everybody.</summary>
public sealed class SeedDemonstrationTests(PgAssembly server)
{
    [Theory]
    [InlineData("2027-03-18")] // the clocks changed on 14 March
    [InlineData("2028-02-26")] // a Saturday in a leap year
    public async Task Every_status_is_shown_whatever_day_it_is(string today)
    {
        await using var database = new TestDatabase(server);
        await database.InitializeAsync();
        await using var services = Services(database, today);
        var seed = services.GetRequiredService<SeedDemonstration>();

        var scope = (await seed.RunAsync())!;

        var read = services.GetRequiredService<ReadAudit>();
        var periods = await read.PeriodsAsync(scope);
        var day = NodaTime.Text.LocalDatePattern.Iso.Parse(today).Value;
        var statuses = new HashSet<Status>();
        foreach (var period in periods.Where(p => p.StartDay <= day))
            statuses.UnionWith((await read.RunAsync(scope, period.Id, day))!.Lines.Select(l => l.Balance.Status));
        Assert.Equal(Enum.GetValues<Status>(), statuses.Order());
    }

    [Fact]
    public async Task Demonstration_comes_once_and_leaves_something_to_do_today()
    {
        await using var database = new TestDatabase(server);
        await database.InitializeAsync();
        await using var services = Services(database, "2026-11-25");
        var seed = services.GetRequiredService<SeedDemonstration>();
        var portal = services.GetRequiredService<Portal>();
        Task<(int, int, int)> CountAsync(Scope scope) => portal.ReadAsync(scope, async db =>
            (await db.Visits.CountAsync(), await db.Changes.CountAsync(), await db.TeachParts.CountAsync()));

        var first = (await seed.RunAsync())!;
        var counts = await CountAsync(first);
        var again = (await seed.RunAsync())!;

        Assert.Equal(counts, await CountAsync(again));
        Assert.Equal(11, counts.Item3);
        var planned = await portal.ReadAsync(first, db => db.Visits.Where(v => v.State == VisitState.Planned).Select(v => v.OnDay).ToListAsync());
        Assert.Contains(new NodaTime.LocalDate(2026, 11, 25), planned);
        Assert.Single(planned, d => d < new NodaTime.LocalDate(2026, 11, 25));
    }

    [Fact]
    public async Task Somebody_elses_agency_is_left_alone()
    {
        await using var database = new TestDatabase(server);
        await database.InitializeAsync();
        await using var agency = await TestAgency.CreateAsync(database, "OTHER");

        Assert.Null(await agency.Get<SeedDemonstration>().RunAsync());
    }

    private static ServiceProvider Services(TestDatabase database, string today)
    {
        var clock = new FakeTimeProvider(DateTimeOffset.Parse(today + "T20:00:00Z", System.Globalization.CultureInfo.InvariantCulture));
        return new ServiceCollection().AddSingleton<TimeProvider>(clock).AddLogging()
            .AddTeamCircleData(database.ConnectionString(Migrate.App)).AddSingleton(TestKey.Seal).BuildServiceProvider();
    }
}
