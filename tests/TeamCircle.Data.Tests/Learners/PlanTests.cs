using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Learners;

public sealed class PlanTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly Guid Operation = Guid.CreateVersion7();

    [Fact]
    public async Task A_new_learner_has_a_plan_and_the_case_manager_who_took_them_in()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN1");

        var page = await agency.PageAsync();
        var caller = await agency.CallerAsync(agency.Marisol);

        Assert.Equal(("WREN", 120), (page.Learner.Code, page.Learner.MostMinutesADay));
        Assert.Equal((PlanAgency.PlanStart, PlanAgency.PlanEnd), (page.Plans[0].StartDay, page.Plans[0].EndDay));
        Assert.True(caller.Manages(agency.Wren));
    }

    [Fact]
    public async Task Saving_a_form_twice_adds_one_service()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN2");
        var (add, caller) = (agency.Agency.Get<AddService>(), await agency.CallerAsync(agency.Marisol));

        var first = PlanAgency.Must(await add.RunAsync(caller, Operation, agency.NewService()));
        var again = PlanAgency.Must(await add.RunAsync(caller, Operation, agency.NewService()));

        Assert.Equal(first, again);
        Assert.Single((await agency.PageAsync()).Plans[0].Services);
    }

    [Fact]
    public async Task All_that_is_wrong_with_a_service_is_said_at_once()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN3");
        var input = agency.NewService();
        (input.Amount.Sessions, input.Amount.PlanWords, input.ToDay) = (7, null, PlanAgency.PlanEnd.PlusDays(1));

        var refused = await agency.Agency.Get<AddService>().RunAsync(await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(), input);

        Assert.Equal(["Amount.Sessions", "Amount.PlanWords", "ToDay"], refused.Problems.Select(p => p.Field));
    }

    [Fact]
    public async Task A_code_that_another_service_has_is_refused_in_words()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN4");
        var input = agency.NewService();
        input.Code = "VI-1";
        await agency.AddServiceAsync(input);

        var refused = await agency.Agency.Get<AddService>().RunAsync(await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(), input);

        Assert.Equal("Code", Assert.Single(refused.Problems).Field);
    }

    [Fact]
    public async Task Who_is_assigned_comes_on_the_team_and_a_new_last_day_keeps_the_old_row()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN5");
        var id = await agency.AddServiceAsync();
        var caller = await agency.CallerAsync(agency.Marisol);
        Assert.False((await agency.CallerAsync(agency.Odalys)).OnTeam(agency.Wren));

        var saved = PlanAgency.Must(await agency.Agency.Get<AssignProvider>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Service = id, Person = agency.Odalys, FromDay = PlanAgency.PlanStart, ToDay = PlanAgency.YearEnd }));
        Assert.True(saved.JoinedTeam);
        Assert.True((await agency.CallerAsync(agency.Odalys)).OnTeam(agency.Wren));

        var named = Assert.Single((await agency.ServiceAsync(id)).Assigned);
        PlanAgency.Must(await agency.Agency.Get<EndAssignment>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Assignment = named.Id, Version = named.Version, LastDay = new(2026, 12, 18), Reason = "On leave" }));

        Assert.Equal(new LocalDate(2026, 12, 18), Assert.Single((await agency.ServiceAsync(id)).Assigned).ToDay);
        Assert.Empty((await agency.ServiceAsync(id)).AssignedOn(new(2026, 12, 19)));
    }

    [Fact]
    public async Task An_assignment_taken_back_was_never_there()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN6");
        var id = await agency.AddServiceAsync();
        var caller = await agency.CallerAsync(agency.Marisol);
        var assign = new AssignProvider.Input { Learner = agency.Wren, Service = id, Person = agency.Bram, FromDay = PlanAgency.PlanStart, ToDay = PlanAgency.YearEnd };
        PlanAgency.Must(await agency.Agency.Get<AssignProvider>().RunAsync(caller, Guid.CreateVersion7(), assign));
        Assert.Equal("Person", Assert.Single((await agency.Agency.Get<AssignProvider>().RunAsync(caller, Guid.CreateVersion7(), assign)).Problems).Field);
        var named = Assert.Single((await agency.ServiceAsync(id)).Assigned);

        PlanAgency.Must(await agency.Agency.Get<EndAssignment>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Assignment = named.Id, Version = named.Version, TakeBack = true, Reason = "Wrong person" }));

        Assert.Empty((await agency.ServiceAsync(id)).Assigned);
    }

    [Fact]
    public async Task The_case_manager_writes_the_statement_and_the_owner_how_it_is_measured()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN7");
        var id = await agency.AddGoalAsync();
        ChangeGoal.Input Input(int version) => new()
        {
            Learner = agency.Wren,
            Goal = id,
            Version = version,
            Parts = new()
            {
                Area = "Switch",
                Statement = "Presses twice.",
                Target = 90,
                Measure = Measure.TimeToRespond,
                Better = Better.Down,
                CriterionDays = 3,
                CriterionOf = 4,
                CriterionFewest = 6,
                CriterionPeople = 2,
                TeachingFrom = new(2026, 9, 28),
                Chance = 50,
                ThirdUpkeep = null,
                InARow = 3,
                PresentSource = " ",
                Objectives = [new() { Statement = "After a pause" }, new() { Statement = "With help" }, new() { Statement = " " }],
            },
        };
        async Task<Outcome<ChangeGoal.Saved>> ChangeAsync(int by, int version) =>
            await agency.Agency.Get<ChangeGoal>().RunAsync(await agency.CallerAsync(by), Guid.CreateVersion7(), Input(version));

        PlanAgency.Must(await ChangeAsync(agency.Marisol, 1));
        var byManager = await agency.GoalAsync(id);
        PlanAgency.Must(await ChangeAsync(agency.Odalys, 2));
        var byOwner = await agency.GoalAsync(id);

        Assert.Equal(("Presses twice.", 90m, Measure.PercentIndependent), (byManager.Statement, byManager.Target, byManager.Terms.Measure));
        Assert.Equal([2, 4, 8], byManager.Terms.UpkeepWeeks);
        Assert.Equal(["With help", "After a pause"], byManager.Objectives.Select(o => o.Statement));
        var terms = byOwner.Terms;
        Assert.Equal((Measure.TimeToRespond, Better.Down, 3, 4), (terms.Measure, terms.Better, terms.CriterionDays, terms.CriterionOf));
        Assert.Equal(new Criterion(90, Better.Down, 3, 4) { FewestOpportunities = 6, People = 2 }, terms.CriterionFor(byOwner.Target));
        Assert.Equal((new LocalDate(2026, 9, 28), 50m, 3, null), (terms.TeachingFrom, terms.Chance, terms.InARow, terms.PresentSource));
        Assert.Equal([2, 4], terms.UpkeepWeeks);
        Assert.Equal(["After a pause", "With help"], byOwner.Objectives.Select(o => o.Statement));
        Assert.Equal("Version", Assert.Single((await ChangeAsync(agency.Marisol, 2)).Problems).Field);
        Assert.Equal([Problem.NotFound], (await ChangeAsync(agency.Bram, 3)).Problems);
    }

    [Fact]
    public async Task Probes_change_from_a_day_and_a_second_change_on_that_day_replaces_the_first()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN8");
        var id = await agency.AddGoalAsync();
        async Task SetAsync(int probes, int version) => PlanAgency.Must(await agency.Agency.Get<SetProbes>().RunAsync(
            await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Goal = id, Version = version, FromDay = new(2026, 11, 2), Probes = new() { Probes = probes, EveryUnit = EveryUnit.Month }, Reason = "Review" }));

        await SetAsync(2, 1);
        await SetAsync(3, 2);

        Assert.Equal([(1, EveryUnit.Week, true), (3, EveryUnit.Month, false)], (await agency.GoalAsync(id)).Probes.Select(p => (p.Probes, p.Every.Unit, p.ByEach)));
    }

    [Fact]
    public async Task A_goals_owners_come_and_go_by_dates()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN9");
        var id = await agency.AddGoalAsync();
        var caller = await agency.CallerAsync(agency.Marisol);
        var first = (await agency.GoalAsync(id)).Owners.Single();
        PlanAgency.Must(await agency.Agency.Get<EndOwner>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Owner = first.Id, Version = first.Version, LastDay = new(2026, 10, 30), Reason = "Leaves" }));
        PlanAgency.Must(await agency.Agency.Get<AddOwner>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Goal = id, Person = agency.Bram, FromDay = new(2026, 10, 31), ToDay = PlanAgency.YearEnd }));

        Assert.Equal(
            [(agency.Odalys, new LocalDate(2026, 10, 30)), (agency.Bram, PlanAgency.YearEnd)],
            (await agency.GoalAsync(id)).Owners.Select(o => (o.PersonId, o.ToDay)));
    }

    [Fact]
    public async Task A_team_changes_with_dates_and_rights_follow_at_once()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN10");
        var caller = await agency.CallerAsync(agency.Marisol);
        PlanAgency.Must(await agency.Agency.Get<AddTeamMember>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Person = agency.Bram, Kind = Relation.Team, FromDay = new(2026, 10, 1) }));
        Assert.True((await agency.CallerAsync(agency.Bram)).OnTeam(agency.Wren));
        var member = (await TeamAsync(agency)).Members.Single(m => m.PersonId == agency.Bram);

        PlanAgency.Must(await agency.Agency.Get<EndTeamMember>().RunAsync(caller, Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Relation = member.Id, Version = member.Version, LastDay = new(2026, 10, 1), Reason = "Moves to another school" }));

        Assert.False((await agency.CallerAsync(agency.Bram)).OnTeam(agency.Wren));
    }

    [Fact]
    public async Task Nobody_puts_oneself_on_a_team_and_the_last_case_manager_stays()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN11");
        var refused = await agency.Agency.Get<AddTeamMember>().RunAsync(await agency.CallerAsync(agency.Bram), Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Person = agency.Bram, Kind = Relation.Team, FromDay = new(2026, 10, 1) });
        Assert.Equal([Problem.NotFound], refused.Problems);

        var manager = (await TeamAsync(agency)).Members.Single();
        var stays = await agency.Agency.Get<EndTeamMember>().RunAsync(await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Relation = manager.Id, Version = manager.Version, LastDay = new(2026, 10, 30), Reason = "Leaves" });
        Assert.Equal("LastDay", Assert.Single(stays.Problems).Field);
    }

    [Fact]
    public async Task The_database_itself_keeps_a_person_from_joining_another_learners_team()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN12");
        var scope = agency.Agency.Person(agency.Bram);

        await using var work = await agency.Agency.Portal.OpenAsync(scope, System.Data.IsolationLevel.ReadCommitted);
        work.Db.Add(new RelationRow { AgencyId = agency.Agency.Id, LearnerId = agency.Wren, PersonId = agency.Bram, Kind = Relation.Team, FromDay = new(2026, 10, 1) });

        await Assert.ThrowsAsync<Microsoft.EntityFrameworkCore.DbUpdateException>(() => work.Db.SaveChangesAsync());
    }

    [Fact]
    public async Task A_second_plan_begins_after_the_first()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN13");
        async Task<Outcome<StartPlan.Saved>> StartAsync(LocalDate start) => await agency.Agency.Get<StartPlan>().RunAsync(
            await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(), new() { Learner = agency.Wren, StartDay = start, EndDay = start.PlusYears(1).PlusDays(-1) });

        Assert.Equal("StartDay", Assert.Single((await StartAsync(PlanAgency.PlanEnd)).Problems).Field);
        PlanAgency.Must(await StartAsync(PlanAgency.PlanEnd.PlusDays(1)));
        Assert.Equal(2, (await agency.PageAsync()).Plans.Count);
    }

    [Fact]
    public async Task A_plans_dates_change_around_its_services_and_the_reason_is_in_the_trail()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN14");
        await agency.AddServiceAsync();
        async Task<Outcome<ChangePlan.Saved>> ChangeAsync(LocalDate end, int version, string? reason = "Annual meeting came early") =>
            await agency.Agency.Get<ChangePlan>().RunAsync(await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(),
                new() { Learner = agency.Wren, Plan = agency.Plan, Version = version, StartDay = PlanAgency.PlanStart, EndDay = end, Reason = reason });

        Assert.Equal("EndDay", Assert.Single((await ChangeAsync(PlanAgency.YearEnd.PlusDays(-1), 1)).Problems).Field);
        Assert.Equal("Reason", Assert.Single((await ChangeAsync(PlanAgency.YearEnd, 1, " ")).Problems).Field);
        PlanAgency.Must(await ChangeAsync(PlanAgency.YearEnd, 1));
        Assert.Equal("Version", Assert.Single((await ChangeAsync(PlanAgency.PlanEnd, 1)).Problems).Field);
        Assert.Equal(PlanAgency.YearEnd, (await agency.PageAsync()).Plans[0].EndDay);
        var grounds = await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency,
            db => Task.FromResult(db.Changes.Where(c => c.TableName == "plans" && c.Act == "update").Select(c => c.Ground).ToList()));
        Assert.Equal("case manager of the learner: Annual meeting came early", Assert.Single(grounds));
    }

    [Fact]
    public async Task An_administrator_names_the_case_manager_and_nobody_else()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "PLN15");
        var next = await agency.PersonAsync("Teodor Vance", Role.CaseManager);
        async Task<Outcome<AddTeamMember.Saved>> AddAsync(int person, Relation kind) => await agency.Agency.Get<AddTeamMember>().RunAsync(
            await agency.CallerAsync(agency.Dele), Guid.CreateVersion7(), new() { Learner = agency.Wren, Person = person, Kind = kind, FromDay = new(2026, 10, 2) });

        Assert.Equal([Problem.NotFound], (await AddAsync(agency.Odalys, Relation.Team)).Problems);
        PlanAgency.Must(await AddAsync(next, Relation.CaseManager));
        Assert.True((await agency.CallerAsync(next)).Manages(agency.Wren));
    }

    private static async Task<TeamPage> TeamAsync(PlanAgency agency) =>
        (await agency.Agency.Get<ReadTeam>().RunAsync(agency.Agency.WholeAgency, agency.Wren, new(2026, 10, 2)))!;
}
