using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Tests.Calendar;
using TeamCircle.Data.Tests.Learners;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Progress;

public sealed class ReadGoalCourseTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    // One probe a week by each owner from 14 September; today is Friday 2 October 2026.
    private static async Task<GoalCoursePage> CourseAsync(PlanAgency agency, int goal, int? by = null) => (await agency.Agency.Get<ReadGoalCourse>()
        .RunAsync(agency.Agency.WholeAgency, await agency.CallerAsync(by ?? agency.Odalys), goal))!;

    private static Task<ProbeRow> ProbeAsync(PlanAgency agency, int goal, LocalDate day, int? by = null, ProbeKind kind = ProbeKind.Probe, LocalDate? pays = null) => agency.Agency.AddAsync(new ProbeRow
    {
        Id = Guid.CreateVersion7(),
        LearnerId = agency.Wren,
        GoalId = goal,
        ProviderId = by ?? agency.Odalys,
        OnDay = day,
        PaysOn = pays,
        Value = 50,
        Opportunities = 8,
        Kind = kind,
    });

    [Fact]
    public async Task A_week_that_passed_without_a_probe_by_its_owner_is_missing()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CRS1");
        var goal = await agency.AddGoalAsync();
        await ProbeAsync(agency, goal, new(2026, 9, 16), kind: ProbeKind.Teaching);
        await ProbeAsync(agency, goal, new(2026, 9, 17), by: agency.Bram);
        await ProbeAsync(agency, goal, new(2026, 9, 23));

        // The week of 14 September holds teaching data and somebody else's probe only; that of 28 September is not over.
        Assert.Equal([new MissingProbe(new(2026, 9, 14), new(2026, 9, 18), "Odalys Ferreira")], (await CourseAsync(agency, goal)).Missing);

        await ProbeAsync(agency, goal, new(2026, 9, 24), pays: new(2026, 9, 15));
        Assert.Empty((await CourseAsync(agency, goal)).Missing);
    }

    [Fact]
    public async Task Where_nothing_is_promised_nothing_is_missing()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CRS2");
        var goal = await agency.AddGoalAsync();
        PlanAgency.Must(await agency.Agency.Get<SetProbes>().RunAsync(await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(), new()
        {
            Learner = agency.Wren,
            Goal = goal,
            Version = 1,
            FromDay = PlanAgency.PlanStart,
            Probes = new() { Probes = 0, EveryUnit = EveryUnit.Week },
            Reason = "Not this year",
        }));

        Assert.Empty((await CourseAsync(agency, goal)).Missing);
    }

    [Fact]
    public async Task Days_away_make_a_break_and_what_stands_is_told_from_what_stood_before()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CRS3");
        var goal = await agency.AddGoalAsync();
        await agency.Agency.AddAsync(new AwayRow { LearnerId = agency.Wren, Reason = Core.Calendar.AwayReason.Hospital, FromDay = new(2026, 9, 21), UntilDay = new(2026, 9, 27) });
        await agency.Agency.AddAsync(new AwayRow { LearnerId = agency.Wren, Reason = Core.Calendar.AwayReason.Hospital, FromDay = new(2026, 11, 2), UntilDay = new(2026, 11, 20), Live = false });
        var probe = await ProbeAsync(agency, goal, new(2026, 9, 16));
        PlanAgency.Must(await agency.Agency.Get<TakeBackProbe>().RunAsync(await agency.CallerAsync(agency.Odalys), Guid.CreateVersion7(), new() { Probe = probe.Id, Why = "Wrong goal" }));

        var course = await CourseAsync(agency, goal);

        Assert.Equal([new SchoolBreak(new(2026, 9, 21), new(2026, 9, 25), 5)], course.Breaks);
        Assert.Empty(course.Live);
        Assert.Equal("Wrong goal", Assert.Single(course.Probes).TakenBackReason);
        Assert.Equal(new GoalRights(Statement: false, Measure: true), course.Rights);
    }

    [Fact]
    public async Task Page_takes_few_statements_however_much_was_recorded()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CRS4");
        var goal = await agency.AddGoalAsync();
        foreach (var day in Enumerable.Range(0, 15))
            await ProbeAsync(agency, goal, new LocalDate(2026, 9, 14).PlusDays(day));
        foreach (var day in Enumerable.Range(0, 3))
            await agency.Agency.AddAsync(new GoalChangeRow { LearnerId = agency.Wren, GoalId = goal, OnDay = new(2026, 9, 14 + day), Kind = GoalChangeKind.Teaching, Words = "Lower" });

        var caller = await agency.CallerAsync(agency.Odalys);

        var count = await Statements.CountAsync(() => agency.Agency.Get<ReadGoalCourse>().RunAsync(agency.Agency.WholeAgency, caller, goal));

        Assert.InRange(count, 4, 10);
        var course = await CourseAsync(agency, goal);
        Assert.Equal((15, 3, 2), (course.Probes.Count, course.Changes.Count, course.Objectives.Count));
    }
}
