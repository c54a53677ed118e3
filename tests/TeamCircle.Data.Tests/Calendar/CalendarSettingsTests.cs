using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Tests.Learners;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>Terms, closures, holidays and reporting periods, on real rows.</summary>
public sealed class CalendarSettingsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static Task<CalendarPage> PageAsync(PlanAgency agency) => agency.Agency.Get<ReadCalendar>().RunAsync(agency.Agency.WholeAgency);

    private static AddClosure.Input Snow(LocalDate day) => new() { Name = "Snow", Kind = ClosureKind.Unscheduled, FirstDay = day, Reason = "Roads closed" };

    private static async Task<Outcome<AddClosure.Saved>> CloseDayAsync(PlanAgency agency, AddClosure.Input input, int? by = null) =>
        await agency.Agency.Get<AddClosure>().RunAsync(await agency.CallerAsync(by ?? agency.Dele), Guid.CreateVersion7(), input);

    [Fact]
    public async Task A_closure_is_entered_and_taken_back_and_its_row_stays()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL1");
        PlanAgency.Must(await CloseDayAsync(agency, Snow(new(2026, 12, 3))));
        var entered = Assert.Single((await PageAsync(agency)).Closures);

        var takenBack = await agency.Agency.Get<TakeBackClosure>().RunAsync(await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Closure = entered.Id, Version = entered.Version, Reason = "The roads were cleared" });

        PlanAgency.Must(takenBack);
        Assert.Empty((await PageAsync(agency)).Closures);
        var row = await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => db.Closures.SingleAsync());
        Assert.Equal((false, "Roads closed", "The roads were cleared"), (row.Live, row.Reason, row.TakenBackReason));
    }

    [Fact]
    public async Task Only_an_administrator_changes_the_calendar()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL2");

        var refused = await CloseDayAsync(agency, Snow(new(2026, 12, 3)), agency.Marisol);

        Assert.Equal([Problem.NotFound], refused.Problems);
        Assert.Empty((await PageAsync(agency)).Closures);
    }

    [Fact]
    public async Task A_day_in_a_closed_count_never_changes()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL3");
        await agency.CloseAsync(new(2026, 10, 1));

        var inside = await CloseDayAsync(agency, Snow(new(2026, 10, 1)));
        var after = await CloseDayAsync(agency, Snow(new(2026, 12, 3)));

        Assert.Contains("closed", Assert.Single(inside.Problems).Message, StringComparison.Ordinal);
        PlanAgency.Must(after);
    }

    [Fact]
    public async Task Ticked_holidays_become_published_closures_and_are_offered_no_more()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL4");
        var offered = (await PageAsync(agency)).Offered;
        var labor = offered.Single(h => h.Name == "Labor Day");
        var thanksgiving = offered.Single(h => h.Name == "Thanksgiving Day");

        PlanAgency.Must(await agency.Agency.Get<AddHolidays>().RunAsync(await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Days = [labor.OnDay, thanksgiving.OnDay], Reason = "School board calendar" }));

        var page = await PageAsync(agency);
        Assert.Equal([new(2026, 9, 7), new LocalDate(2026, 11, 26)], page.Closures.Select(c => c.OnDay));
        Assert.All(page.Closures, c => Assert.Equal(ClosureKind.Published, c.Kind));
        Assert.Equal(offered.Count - 2, page.Offered.Count);
    }

    [Fact]
    public async Task A_day_that_is_not_offered_is_no_holiday_whatever_the_browser_says()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL5");

        var refused = await agency.Agency.Get<AddHolidays>().RunAsync(await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Days = [new(2026, 9, 8)], Reason = "School board calendar" });

        Assert.Equal("Days", Assert.Single(refused.Problems).Field);
    }

    [Fact]
    public async Task A_changed_term_is_a_new_row_and_the_old_one_stays_with_the_reason()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL6");
        var page = await PageAsync(agency);
        var row = page.Terms.Single();
        row.LastDay = new(2027, 6, 4);
        async Task<Outcome<SetTerms.Saved>> SetAsync(string? reason) => await agency.Agency.Get<SetTerms>().RunAsync(
            await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(), new() { Rows = [row, new()], Stamp = page.TermsStamp, Reason = reason });

        Assert.Equal("Reason", Assert.Single((await SetAsync(null)).Problems).Field);
        Assert.Equal(new(1, 1), PlanAgency.Must(await SetAsync("Snow days are made up in June")));

        var rows = await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => db.Terms.IgnoreQueryFilters().OrderBy(t => t.Id).ToListAsync());
        Assert.Equal([(false, PlanAgency.YearEnd), (true, new LocalDate(2027, 6, 4))], rows.Select(t => (t.Live, t.LastDay)));
        Assert.Equal("Snow days are made up in June", rows[0].TakenBackReason);
    }

    [Fact]
    public async Task Terms_saved_by_somebody_else_meanwhile_are_not_overwritten()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL7");
        var page = await PageAsync(agency);
        async Task<Outcome<SetTerms.Saved>> AddAsync(string name, LocalDate first) => await agency.Agency.Get<SetTerms>().RunAsync(
            await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Rows = [.. page.Terms, new() { Name = name, FirstDay = first, LastDay = first.PlusDays(20) }], Stamp = page.TermsStamp });

        PlanAgency.Must(await AddAsync("Summer", new(2027, 6, 7)));
        var second = await AddAsync("July", new(2027, 7, 5));

        Assert.Equal("Version", Assert.Single(second.Problems).Field);
    }

    [Fact]
    public async Task A_term_may_grow_after_a_closed_count_but_not_into_it()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL8");
        await agency.CloseAsync(new(2026, 10, 1));
        var page = await PageAsync(agency);
        async Task<Outcome<SetTerms.Saved>> SetAsync(LocalDate first, LocalDate last) => await agency.Agency.Get<SetTerms>().RunAsync(
            await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Rows = [new() { Id = page.Terms[0].Id, Name = "Year", FirstDay = first, LastDay = last }], Stamp = page.TermsStamp, Reason = "Set right" });

        Assert.Contains("closed", Assert.Single((await SetAsync(new(2026, 8, 24), PlanAgency.YearEnd)).Problems).Message, StringComparison.Ordinal);
        PlanAgency.Must(await SetAsync(new(2026, 8, 17), new(2027, 6, 4)));
    }

    [Fact]
    public async Task A_closed_count_keeps_its_reporting_period_while_another_one_may_move()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL9");
        await agency.CloseAsync(new(2026, 10, 1));
        async Task<Outcome<SetPeriods.Saved>> SetAsync(LocalDate firstEnd, LocalDate secondEnd)
        {
            var page = await agency.Agency.Get<ReadPeriods>().RunAsync(agency.Agency.WholeAgency);
            page.Rows[0].LastDay = firstEnd;
            page.Rows[1].LastDay = secondEnd;
            return await agency.Agency.Get<SetPeriods>().RunAsync(await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
                new() { Rows = [.. page.Rows], Stamp = page.Stamp, Reason = "Set right" });
        }

        Assert.Contains("closed", Assert.Single((await SetAsync(new(2026, 10, 15), new(2026, 12, 18))).Problems).Message, StringComparison.Ordinal);
        PlanAgency.Must(await SetAsync(new(2026, 10, 16), new(2026, 12, 11)));
    }

    [Fact]
    public async Task Periods_that_leave_term_days_between_them_are_pointed_out()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CAL10");
        var page = await agency.Agency.Get<ReadPeriods>().RunAsync(agency.Agency.WholeAgency);
        Assert.Empty(page.Gaps);
        page.Rows[1].FirstDay = new(2026, 10, 21);

        PlanAgency.Must(await agency.Agency.Get<SetPeriods>().RunAsync(await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(),
            new() { Rows = [.. page.Rows], Stamp = page.Stamp, Reason = "Board decision" }));

        var gap = Assert.Single((await agency.Agency.Get<ReadPeriods>().RunAsync(agency.Agency.WholeAgency)).Gaps);
        Assert.Equal((new(2026, 10, 17), 2), (gap.FirstDay, gap.SchoolDays));
    }
}
