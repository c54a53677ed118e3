using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Import;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Import;

/// <summary>What single rows do to an agency that holds the world's calendar, people, learners and services, but no visits.</summary>
public sealed class ImportRowsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const string Visits = "date,service,provider,start,end,outcome,planned start,planned end,reason,makes up for,format,note,ref\r\n";
    private const string O = "odalys@tallowfern.example";

    [Fact]
    public async Task One_bad_row_stores_nothing_of_any_file()
    {
        await using var agency = await AgencyAsync("R1");
        var before = await agency.StateAsync();

        var result = await agency.ImportAsync(
        [
            ImportedAgency.File("people.csv", "email,name,roles\r\nnew@tallowfern.example,New Person,provider\r\n"),
            ImportedAgency.File("visits.csv", Visits + $"2026-09-14,WREN-V,{O},8:00,8:30,given\r\n2026-09-15,WREN-V,{O},8:00,8:30,perhaps\r\n"),
        ]);

        Assert.Equal((3, "outcome"), Assert.Single(result.Problems.Select(p => (p.Line, p.Column))));
        Assert.False(result.Stored);
        Assert.Equal(before, await agency.StateAsync());
    }

    [Fact]
    public async Task Name_that_a_paper_changed_stays_whatever_an_older_file_says()
    {
        await using var agency = await AgencyAsync("R77");
        var before = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.People.SingleAsync(p => p.Email == O));
        await agency.AddAsync(new PersonNameRow { PersonId = before.Id, Name = before.Name, UntilDay = new(2026, 9, 14), Paper = "Marriage certificate", ChangedBy = agency.Terminal });
        await agency.ChangeAsync<PersonRow>(p => p.Email == O, p => p.Name = "Odalys Quillon");

        await agency.ImportAsync("people.csv", $"email,name,roles\r\n{O},{before.Name},provider\r\n");

        Assert.Equal("Odalys Quillon", await agency.Portal.ReadAsync(agency.WholeAgency, db => db.People.Where(p => p.Email == O).Select(p => p.Name).SingleAsync()));
    }

    [Fact]
    public async Task Planned_visit_becomes_given_and_keeps_what_was_planned()
    {
        await using var agency = await AgencyAsync("R2");
        await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,WREN-V,{O},8:00,8:45,planned,,,,,,,A7\r\n");
        var planned = await OnlyVisitAsync(agency);

        var result = await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,wren-v,{O},8:10,8:30,given,,,learner unwell,,,,a7\r\n");

        var given = await OnlyVisitAsync(agency);
        Assert.Equal((planned.Id, VisitState.Logged, new LocalTime(8, 10), 20), (given.Id, given.State, given.StartTime, given.Minutes));
        Assert.Equal((new LocalTime(8, 0), 45, "A7"), (given.PlannedStart, given.PlannedMinutes, given.Ref));
        Assert.Equal(1, Assert.Single(result.Files).Changed);
        var session = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Sessions.SingleAsync());
        Assert.Equal((given.Id, 20, Reason.LearnerUnwell), (session.VisitId, session.Credited, session.Reason));
    }

    [Fact]
    public async Task Given_visit_that_comes_with_other_minutes_is_corrected_by_a_new_row_and_its_trail_kept()
    {
        await using var agency = await AgencyAsync("R3");
        await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,WREN-V,{O},8:00,8:30,given,,,,,,first\r\n");

        await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,WREN-V,{O},8:00,8:40,given\r\n");

        var sessions = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Sessions.OrderBy(s => s.Credited).ToListAsync());
        Assert.Equal([(30, false), (40, true)], sessions.Select(s => (s.Credited, s.Live)));
        Assert.Equal((sessions[0].Id, "first"), (sessions[1].Replaces, sessions[1].Note)); // an empty cell takes nothing away
        var changes = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Changes.Where(c => c.TableName == "visits" && c.Act == "update").CountAsync());
        Assert.True(changes > 0, "what stood before an import changed it must be on record");
    }

    [Fact]
    public async Task Balances_bring_what_was_given_brought_forward_and_awarded_and_a_second_import_changes_nothing()
    {
        await using var agency = await AgencyAsync("R0");
        const string Balances = "service,as of,given before,brought forward,award,source,until\r\n";
        const string File = Balances + "WREN-V,2026-09-16,20,45,120,Settlement,2027-05-28\r\n";

        var first = await agency.ImportAsync("balances.csv", File);
        var before = await agency.StateAsync();
        var second = await agency.ImportAsync("balances.csv", File);

        Assert.Equal((1, 1), (Assert.Single(first.Files).Added, Assert.Single(second.Files).Known));
        Assert.Equal(before, await agency.StateAsync());
        var (debt, award) = await agency.Portal.ReadAsync(agency.WholeAgency, async db => (await db.Debts.SingleAsync(), await db.Awards.SingleAsync()));
        Assert.Equal((new LocalDate(2026, 9, 15), 45, null), (debt.OnDay, debt.Undecided, debt.PeriodId));
        Assert.Equal((AwardSource.Settlement, 120, new LocalDate(2027, 5, 28)), (award.Source, award.Amount, award.UntilDay));

        await agency.ImportAsync("balances.csv", Balances + "WREN-V,2026-09-16,20,30,,,\r\n");
        (debt, award) = await agency.Portal.ReadAsync(agency.WholeAgency, async db => (await db.Debts.SingleAsync(), await db.Awards.SingleAsync()));
        Assert.Equal((30, false), (debt.Undecided, award.Live));
    }

    [Fact]
    public async Task File_that_was_written_before_a_visit_was_logged_does_not_plan_it_anew()
    {
        await using var agency = await AgencyAsync("R4");
        var plan = Visits + $"2026-09-14,WREN-V,{O},8:00,8:30,planned\r\n";
        await agency.ImportAsync("visits.csv", plan);
        await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,WREN-V,{O},8:00,8:30,given\r\n");
        var before = await agency.StateAsync();

        await agency.ImportAsync("visits.csv", plan);

        Assert.Equal(before, await agency.StateAsync());
    }

    [Fact]
    public async Task Two_visits_may_change_places()
    {
        await using var agency = await AgencyAsync("R5");
        await agency.ImportAsync("visits.csv", Visits + $"2026-10-05,WREN-V,{O},8:00,8:30,planned,,,,,,,1\r\n2026-10-05,JONAH-V,{O},9:00,9:30,planned,,,,,,,2\r\n");

        var result = await agency.ImportAsync("visits.csv", Visits + $"2026-10-05,WREN-V,{O},9:00,9:30,planned,,,,,,,1\r\n2026-10-05,JONAH-V,{O},8:00,8:30,planned,,,,,,,2\r\n");

        Assert.Equal(2, Assert.Single(result.Files).Changed);
        var starts = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Visits.OrderBy(v => v.Ref).Select(v => v.StartTime).ToListAsync());
        Assert.Equal([new LocalTime(9, 0), new LocalTime(8, 0)], starts);
    }

    [Fact]
    public async Task Group_sessions_share_a_number_also_with_one_that_is_stored()
    {
        await using var agency = await AgencyAsync("R6");
        await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,WREN-V,{O},8:00,8:30,given,,,,,group\r\n");

        var result = await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,JONAH-V,{O},8:00,8:30,given,,,,,group\r\n");

        Assert.Empty(result.Problems);
        Assert.Single(await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Visits.Select(v => v.GroupNo).Distinct().ToListAsync()));
    }

    [Fact]
    public async Task Stored_visit_of_another_learner_is_in_the_way()
    {
        await using var agency = await AgencyAsync("R7");
        await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,WREN-V,{O},8:00,8:30,given\r\n");

        var result = await agency.ImportAsync("visits.csv", Visits + $"2026-09-14,JONAH-V,{O},8:15,8:45,given\r\n");

        Assert.Equal((2, "start"), Assert.Single(result.Problems.Select(p => (p.Line, p.Column))));
    }

    [Fact]
    public async Task Row_that_would_change_a_closed_count_is_refused_and_one_that_changes_nothing_is_not()
    {
        await using var agency = await AgencyAsync("R8");
        var known = $"2026-09-14,WREN-V,{O},8:00,8:30,given\r\n";
        await agency.ImportAsync("visits.csv", Visits + known);
        await using (var work = await agency.Portal.OpenAsync(agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted))
        {
            await work.Db.LearnerPeriods.Where(l => work.Db.Learners.Any(w => w.AgencyId == l.AgencyId && w.Id == l.LearnerId && w.Code == "WREN")).ExecuteUpdateAsync(s => s.SetProperty(p => p.ClosedAt, Instant.FromUtc(2026, 10, 2, 0, 0)));
            await work.CommitAsync();
        }

        Assert.Empty((await agency.ImportAsync("visits.csv", Visits + known)).Problems);
        var result = await agency.ImportAsync("visits.csv", Visits + known + $"2026-09-15,WREN-V,{O},8:00,8:30,given\r\n2026-09-15,JONAH-V,{O},9:00,9:30,given\r\n", goodRows: true);

        Assert.Equal((3, "date"), Assert.Single(result.Problems.Select(p => (p.Line, p.Column))));
        Assert.Equal((1, 0, 1, 1), Assert.Single(result.Files.Select(f => (f.Added, f.Changed, f.Known, f.Refused))));
    }

    [Fact]
    public async Task Decisions_and_probes_that_look_alike_stay_apart_and_a_changed_one_replaces_its_own()
    {
        await using var agency = await AgencyAsync("R9");
        const string decisions = "date,service,amount,decision,decided on,by\r\n";
        const string two = "2026-09-01,JONAH-OT,30,not owed,2026-09-06,marisol@tallowfern.example\r\n2026-09-01,JONAH-OT,{0},not owed,2026-09-06,marisol@tallowfern.example\r\n";
        await agency.ImportAsync("decisions.csv", decisions + two.Replace("{0}", "30", StringComparison.Ordinal));

        var result = await agency.ImportAsync("decisions.csv", decisions + two.Replace("{0}", "15", StringComparison.Ordinal));

        Assert.Equal((0, 1, 1), Assert.Single(result.Files.Select(f => (f.Added, f.Changed, f.Known))));
        var standing = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Decisions.Where(d => d.Live).Select(d => d.Amount).ToListAsync());
        Assert.Equal([15, 30], standing.Order());
    }

    [Fact]
    public async Task Roles_and_team_members_are_added_and_never_taken_away_by_a_file()
    {
        await using var agency = await AgencyAsync("R10");

        await agency.ImportAsync(
        [
            ImportedAgency.File("people.csv", "email,name,roles\r\nODALYS@tallowfern.example,Odalys Ferreira,administrator\r\n"),
            ImportedAgency.File("learners.csv", "code,name,plan start,plan end,case manager,team,most minutes a day\r\n"
                + "wren,Wren Belmares,2026-05-07,2027-05-06,odalys@tallowfern.example,,90\r\n"),
        ]);

        var odalys = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.People.SingleAsync(p => p.Name == "Odalys Ferreira"));
        var caller = (await agency.CallerAsync(odalys.Id))!;
        Assert.Equal(["Administrator", "Provider"], caller.Roles.Select(r => r.ToString()).Order());
        var wren = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Learners.SingleAsync(l => l.Code == "WREN"));
        Assert.True(caller.Manages(wren.Id));
        var managers = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Relations
            .Where(r => r.LearnerId == wren.Id && r.Kind == Core.People.Relation.CaseManager).OrderBy(r => r.FromDay).Select(r => r.ToDay).ToListAsync());
        Assert.Equal([new LocalDate(2026, 10, 1), null], managers); // the former one until yesterday
    }

    [Fact]
    public async Task Thousands_of_visits_are_stored_at_once_and_known_the_second_time()
    {
        await using var agency = await AgencyAsync("R11");
        var rows = Enumerable.Range(0, 2000).Select(i => (Day: new LocalDate(2026, 8, 17).PlusDays(i / 140), Minute: i % 140 * 5))
            .Select(r => $"{r.Day:uuuu-MM-dd},WREN-V,{O},{6 + r.Minute / 60}:{r.Minute % 60:00},{6 + (r.Minute + 5) / 60}:{(r.Minute + 5) % 60:00},given\r\n");
        var file = ImportedAgency.File("visits.csv", Visits + string.Concat(rows));

        var result = await agency.ImportAsync([file]);

        Assert.Equal(2000, Assert.Single(result.Files).Added);
        Assert.False((await agency.ImportAsync([file])).Stored);
    }

    private async Task<TestAgency> AgencyAsync(string code)
    {
        var agency = await TestAgency.CreateAsync(database, code);
        await agency.ImportAsync([.. BroughtFiles.FromPath(SampleWorld.Folder).Files.Where(f => f.Name is not ("visits.csv" or "probes.csv" or "decisions.csv"))]);
        return agency;
    }

    private static Task<VisitRow> OnlyVisitAsync(TestAgency agency) => agency.Portal.ReadAsync(agency.WholeAgency, db => db.Visits.SingleAsync());
}
