using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Tests.Learners;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

public sealed class ChangePolicyTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly LocalDate Next = new(2026, 10, 19);

    private static ChangePolicy.Input Prorated(int second) => new()
    {
        FromDay = Next,
        ShortWindow = ShortWindow.Prorated,
        Words = "Weeks with holidays count by their days.",
        WrittenIn = "Handbook, 4.2",
        Reason = "Board decision",
        SecondPerson = second,
    };

    private static async Task<Outcome<ChangePolicy.Saved>> ChangeAsync(PlanAgency agency, int by, ChangePolicy.Input input) =>
        await agency.Agency.Get<ChangePolicy>().RunAsync(await agency.CallerAsync(by), Guid.CreateVersion7(), input);

    private static Task<AgencyRules> RulesAsync(PlanAgency agency) =>
        agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => AgencyRules.ReadAsync(db, agency.Agency.Id));

    [Fact]
    public async Task A_first_policy_does_not_reach_back()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "POL1");

        PlanAgency.Must(await ChangeAsync(agency, agency.Dele, Prorated(agency.Director)));

        var policies = (await RulesAsync(agency)).Policies;
        Assert.Equal(ShortWindow.InFull, policies.On(Core.Time.Day.Of(Next) - 1).ShortWindow);
        Assert.Equal(ShortWindow.Prorated, policies.On(Core.Time.Day.Of(Next)).ShortWindow);
    }

    [Fact]
    public async Task The_one_who_asks_is_not_the_second_person()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "POL2");

        var refused = await ChangeAsync(agency, agency.Dele, Prorated(agency.Dele));
        var provider = await ChangeAsync(agency, agency.Dele, Prorated(agency.Odalys));

        Assert.Equal("SecondPerson", Assert.Single(refused.Problems).Field);
        Assert.Equal("SecondPerson", Assert.Single(provider.Problems).Field);
    }

    [Theory]
    [InlineData("POL3A", "administrator", true)]
    [InlineData("POL3B", "director", true)]
    [InlineData("POL3C", "case manager", false)]
    [InlineData("POL3D", "provider", false)]
    public async Task Policy_is_changed_by_administrator_and_director_only(string code, string role, bool may)
    {
        await using var agency = await PlanAgency.CreateAsync(database, code);
        var by = role switch { "administrator" => agency.Dele, "director" => agency.Director, "case manager" => agency.Marisol, _ => agency.Odalys };
        var second = by == agency.Dele ? agency.Director : agency.Dele;

        var outcome = await ChangeAsync(agency, by, Prorated(second));

        Assert.Equal(may, outcome.Value is not null);
    }

    [Fact]
    public async Task A_policy_not_begun_is_replaced_or_taken_back_and_its_row_stays()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "POL4");
        PlanAgency.Must(await ChangeAsync(agency, agency.Dele, Prorated(agency.Director)));
        var second = Prorated(agency.Director);
        second.ShortWindow = ShortWindow.AtLeastHalf;
        PlanAgency.Must(await ChangeAsync(agency, agency.Dele, second));
        var caller = await agency.CallerAsync(agency.Dele);
        var standing = (await agency.Agency.Get<ReadPolicies>().RunAsync(caller, agency.Agency.WholeAgency)).Policies.Single(p => p.FromDay == Next);
        Assert.Equal((ShortWindow.AtLeastHalf, "Anselm Brigadier"), (standing.Policy.ShortWindow, standing.SecondPerson));

        PlanAgency.Must(await agency.Agency.Get<TakeBackPolicy>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Policy = standing.Id, Version = standing.Version, Reason = "The board withdrew it", SecondPerson = agency.Director }));

        Assert.Equal(Policy.Default, (await RulesAsync(agency)).Policies.On(Core.Time.Day.Of(Next)));
        Assert.Equal(2, await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => db.Policies.IgnoreQueryFilters().CountAsync(p => !p.Live)));
    }

    [Fact]
    public async Task A_policy_that_has_begun_cannot_be_taken_back()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "POL5");
        PlanAgency.Must(await ChangeAsync(agency, agency.Dele, Prorated(agency.Director)));
        agency.Agency.Clock.Advance(TimeSpan.FromDays(30));
        var caller = await agency.CallerAsync(agency.Dele);
        var standing = (await agency.Agency.Get<ReadPolicies>().RunAsync(caller, agency.Agency.WholeAgency)).Policies[^1];

        var refused = await agency.Agency.Get<TakeBackPolicy>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Policy = standing.Id, Version = standing.Version, Reason = "Too late", SecondPerson = agency.Director });

        Assert.Equal([Problem.NotFound], refused.Problems);
    }

    [Fact]
    public async Task A_reporting_period_cannot_move_over_the_day_on_which_a_policy_begins()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "POL6");
        PlanAgency.Must(await ChangeAsync(agency, agency.Dele, Prorated(agency.Director)));
        var page = await agency.Agency.Get<ReadPeriods>().RunAsync(agency.Agency.WholeAgency);
        page.Rows[0].LastDay = new(2026, 10, 30);
        page.Rows[1].FirstDay = new(2026, 11, 2);

        var refused = await agency.Agency.Get<SetPeriods>().RunAsync(await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Rows = [.. page.Rows], Stamp = page.Stamp, Reason = "Board decision" });

        Assert.Contains("policy begins inside", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
    }
}
