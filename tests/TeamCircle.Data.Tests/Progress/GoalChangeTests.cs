using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Tests.Learners;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Progress;

public sealed class GoalChangeTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static async Task<IReadOnlyList<GoalChange>> ChangesAsync(PlanAgency agency, int goal) =>
        (await agency.Agency.Get<ReadGoalChanges>().RunAsync(await agency.CallerAsync(agency.Odalys), agency.Agency.WholeAgency, goal))!.Changes;

    private static async Task<Outcome<NoteTeachingChange.Saved>> NoteAsync(PlanAgency agency, int by, int goal, LocalDate day, string words = "Presented lower") =>
        await agency.Agency.Get<NoteTeachingChange>().RunAsync(await agency.CallerAsync(by), Guid.CreateVersion7(), new() { Goal = goal, OnDay = day, Words = words });

    [Fact]
    public async Task Another_target_is_a_dated_change_and_the_same_one_is_none()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CHG1");
        var goal = await agency.AddGoalAsync();
        async Task SaveAsync(decimal target, int version) => PlanAgency.Must(await agency.Agency.Get<ChangeGoal>().RunAsync(
            await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Goal = goal, Version = version, Parts = new() { Area = "Switch use", Statement = "Presses.", Target = target } }));

        await SaveAsync(80, 1);
        await SaveAsync(90, 2);

        var change = Assert.Single(await ChangesAsync(agency, goal));
        Assert.Equal(("Target 90 instead of 80", GoalChangeKind.Target, new LocalDate(2026, 10, 2), "Marisol Quenby"), (change.Words, change.Kind, change.OnDay, change.By));
    }

    [Fact]
    public async Task Teaching_changes_are_noted_by_owners_and_the_case_manager_and_nobody_else()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CHG2");
        var goal = await agency.AddGoalAsync();

        PlanAgency.Must(await NoteAsync(agency, agency.Odalys, goal, new(2026, 9, 28)));
        PlanAgency.Must(await NoteAsync(agency, agency.Marisol, goal, new(2026, 10, 1), "One adult only"));

        Assert.Equal([Problem.NotFound], (await NoteAsync(agency, agency.Bram, goal, new(2026, 9, 28))).Problems);
        Assert.Equal(["OnDay"], (await NoteAsync(agency, agency.Odalys, goal, new(2026, 10, 3))).Problems.Select(p => p.Field));
        Assert.Equal(["OnDay", "Words"], (await NoteAsync(agency, agency.Odalys, goal, new(2026, 9, 13), " ")).Problems.Select(p => p.Field));
        Assert.Equal(["One adult only", "Presented lower"], (await ChangesAsync(agency, goal)).Select(c => c.Words));
    }

    [Fact]
    public async Task A_change_taken_back_is_drawn_no_more_and_a_change_of_the_target_stays()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CHG3");
        var goal = await agency.AddGoalAsync();
        PlanAgency.Must(await NoteAsync(agency, agency.Odalys, goal, new(2026, 9, 28)));
        var target = await agency.Agency.AddAsync(new GoalChangeRow { LearnerId = agency.Wren, GoalId = goal, OnDay = new(2026, 9, 29), Kind = GoalChangeKind.Target, Words = "Target 80 instead of 70" });
        var teaching = (await ChangesAsync(agency, goal)).Single(c => c.Kind == GoalChangeKind.Teaching);
        async Task<Outcome<TakeBackTeachingChange.Saved>> BackAsync(int by, int change, string? why) => await agency.Agency.Get<TakeBackTeachingChange>()
            .RunAsync(await agency.CallerAsync(by), Guid.CreateVersion7(), new() { Goal = goal, Change = change, Why = why });

        Assert.Equal([Problem.NotFound], (await BackAsync(agency.Odalys, target.Id, "No")).Problems);
        Assert.Equal([Problem.NotFound], (await BackAsync(agency.Bram, teaching.Id!.Value, "No")).Problems);
        Assert.Equal("Why", Assert.Single((await BackAsync(agency.Odalys, teaching.Id.Value, " ")).Problems).Field);
        PlanAgency.Must(await BackAsync(agency.Odalys, teaching.Id.Value, "It was another goal"));

        Assert.Equal(GoalChangeKind.Target, Assert.Single(await ChangesAsync(agency, goal)).Kind);
    }

    [Fact]
    public async Task Waits_and_prompts_of_a_routine_that_serves_the_goal_are_changes_by_themselves()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "CHG4");
        var (goal, other) = (await agency.AddGoalAsync(), await agency.AddGoalAsync());
        var routine = await agency.Agency.AddAsync(new RoutineRow { LearnerId = agency.Wren, Name = "Warm towel hello" });
        var first = new RoutineContent
        {
            WaitSeconds = 8,
            Prompts = [new("p1", "Touches the towel")],
            Steps = [new("s1", StepKind.Response, "Turns to the towel", [goal])],
            Procedure = PromptProcedure.LeastToMost,
        };
        var second = first with { WaitSeconds = 12, Light = "Lamp behind her" };
        foreach (var (number, content) in new[] { (1, first), (2, second), (3, second with { Light = null }) })
            await agency.Agency.AddAsync(new RoutineVersionRow
            {
                LearnerId = agency.Wren,
                RoutineId = routine.Id,
                Number = number,
                Content = content.Write(),
                WrittenBy = agency.Bram,
                WrittenAt = Instant.FromUtc(2026, 9, 20 + number, 3, 0),
            });

        var change = Assert.Single(await ChangesAsync(agency, goal)); // the light is no change of wait or prompt
        Assert.Equal(("Warm towel hello: Wait before each prompt: 12 seconds instead of 8 seconds", routine.Id, "Bram Nakamura"), (change.Words, change.Routine, change.By));
        Assert.Equal(new LocalDate(2026, 9, 21), change.OnDay); // in the agency's time it was still the evening before
        Assert.Empty(await ChangesAsync(agency, other));
    }
}
