using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using static TeamCircle.Core.Tests.Practice.Practised;

namespace TeamCircle.Core.Tests.Practice;

public sealed class WaitReportTests
{
    private static readonly WaitInUse[] TenSeconds = [new(7, "press", 10)];

    private static PractisedTrial[] Many(int count, PractisedOnce once, double from) => [.. Enumerable.Range(0, count).Select(i => Answered(once, from + (i / 10.0)))];

    [Fact]
    public void Trial_without_a_time_is_left_out_and_says_why()
    {
        var trial = Answered(Once(), 2.5);

        Assert.Equal((new TimedTrial(2.5m, true), null), (trial.Timed, trial.LeftOut));
        Assert.Equal(new TimedTrial(9, false), Helped(Once(), 9).Timed);
        Assert.Equal(LeftOut.DoesNotCount, (trial with { Counts = false }).LeftOut);
        Assert.Equal(LeftOut.AtOnce, (trial with { AtOnce = true }).LeftOut);
        Assert.Equal(LeftOut.Refused, (trial with { End = TrialEnd.Refused }).LeftOut);
        Assert.Equal(LeftOut.Remembered, (trial with { Remembered = true, TimeToRespond = null }).LeftOut);
        Assert.Equal(LeftOut.Interrupted, (trial with { TimeToRespond = null }).LeftOut);
        Assert.Equal(LeftOut.Interrupted, (trial with { End = TrialEnd.Unknown, TimeToRespond = null }).LeftOut);
    }

    [Fact]
    public void Trials_left_out_are_counted_by_their_reason()
    {
        var trial = Answered(Once(), 2);

        var report = new WaitReport([trial, trial with { AtOnce = true }, trial with { AtOnce = true }, trial with { TimeToRespond = null }], TenSeconds, null);

        Assert.Equal([(LeftOut.AtOnce, 2), (LeftOut.Interrupted, 1)], report.LeftOut);
        Assert.Equal(1, report.Curve.Trials);
    }

    [Fact]
    public void Last_quarter_is_that_of_each_steps_own_wait()
    {
        WaitInUse[] waits = [new(7, "press", 10), new(7, "look", 20), new(8, "press", 40)];
        PractisedTrial[] trials =
        [
            Answered(Once(), 8), Answered(Once(), 7), Answered(Once(), 8, "look"), Answered(Once(), 15, "look"), Answered(Once(routine: 8), 29), Answered(Once(), 30, "gone"),
        ];

        var report = new WaitReport(trials, waits, null);

        Assert.Equal(2, report.InLastQuarter); // 8 of 10 and 15 of 20
        Assert.Equal([10, 20, 40], report.Waits);
    }

    [Fact]
    public void Words_that_differ_in_capitals_and_points_are_one_condition()
    {
        var trials = Many(3, Once(side: "From her left."), 1).Concat(Many(2, Once(side: "from her left"), 1)).Concat(Many(1, Once(side: " "), 1)).ToList();

        var groups = new WaitReport(trials, TenSeconds, null).BySide.Groups;

        Assert.Equal([("From her left", 5), (null, 1)], groups.Select(g => (g.Name, g.Curve.Trials)));
    }

    [Fact]
    public void Only_named_groups_with_enough_trials_are_tested()
    {
        var (left, right, unsaid, few) = (Once(side: "left"), Once(side: "right"), Once(), Once(side: "above"));
        var without = new WaitReport([.. Many(10, left, 1), .. Many(9, right, 5), .. Many(12, unsaid, 5)], TenSeconds, null);
        var with = new WaitReport([.. Many(10, left, 1), .. Many(10, right, 5), .. Many(12, unsaid, 5), .. Many(3, few, 9)], TenSeconds, null);

        Assert.Null(without.BySide.Test);
        Assert.Equal(1, with.BySide.Test!.Df);
        Assert.InRange(with.BySide.Test.P.Value!.Value, 0, 0.001);
    }

    [Fact]
    public void Cells_set_side_position_and_state_beside_each_other()
    {
        PractisedTrial[] trials =
        [
            .. Many(2, Once(side: "left", position: "chair", state: StateOfLearner.QuietAlert), 1), .. Many(1, Once(side: "left", position: "chair"), 1),
            .. Many(3, Once(side: "right", position: "chair", state: StateOfLearner.QuietAlert), 1),
        ];

        Assert.Equal([("right", "chair", "quiet alert", 3), ("left", "chair", "quiet alert", 2), ("left", "chair", null, 1)],
            new WaitReport(trials, TenSeconds, null).Cells.Select(c => (c.Side, c.Position, c.State, c.Curve.Trials)));
    }

    [Fact]
    public void Months_stand_in_order()
    {
        PractisedTrial[] trials = [.. Many(1, Once(day: new(2026, 9, 30)), 1), .. Many(4, Once(day: new(2026, 10, 1)), 1), .. Many(1, Once(day: new(2025, 12, 1)), 1)];

        Assert.Equal(["2025-12", "2026-09", "2026-10"], new WaitReport(trials, TenSeconds, null).ByMonth.Groups.Select(g => g.Name));
    }

    [Fact]
    public void Curves_around_a_longer_wait_are_of_that_routine_alone()
    {
        var change = new Lengthened(7, "Watering the herbs", 2, new(2026, 10, 1), 10, 12);
        PractisedTrial[] trials = [.. Many(2, Once(), 1), .. Many(3, Once(version: 2), 1), .. Many(4, Once(version: 3), 1), .. Many(5, Once(routine: 8, version: 2), 1)];

        var (before, after) = new WaitReport(trials, TenSeconds, change).AroundLengthening!.Value;

        Assert.Equal((2, 7), (before.Trials, after.Trials));
        Assert.Null(new WaitReport(trials, TenSeconds, null).AroundLengthening);
    }

    [Fact]
    public void Longer_wait_is_the_last_version_that_waits_longer_than_the_one_before()
    {
        WaitVersion Version(int routine, int number, int day, params int[] waits) =>
            new(routine, $"R{routine}", number, new(2026, 9, day), [.. waits.Select((w, i) => new WaitInUse(routine, $"s{i}", w))]);

        Assert.Equal(new(1, "R1", 3, new(2026, 9, 3), 10, 12), Lengthened.LastOf([Version(1, 1, 1, 10), Version(1, 2, 2, 8, 10), Version(1, 3, 3, 12), Version(1, 4, 9, 9), Version(2, 1, 1, 5), Version(2, 2, 2, 6)]));
        Assert.Equal(new(2, "R2", 3, new(2026, 9, 4), 5, 6), Lengthened.LastOf([Version(1, 1, 1, 10), Version(2, 1, 1, 5), Version(2, 2, 2), Version(2, 3, 4, 6)]));
        Assert.Null(Lengthened.LastOf([Version(1, 1, 1, 10), Version(1, 2, 2, 9)]));
    }

    [Fact]
    public void Wait_in_use_is_that_before_the_first_prompt_of_steps_that_ask()
    {
        var card = new RoutineContent
        {
            Procedure = PromptProcedure.LeastToMost,
            WaitSeconds = 12,
            Prompts = [new("point", "point"), new("say", "say", WaitSeconds: 8)],
            Steps =
            [
                new("show", StepKind.Shown, "Show", [5]), new("look", StepKind.Response, "She looks", [4]), new("press", StepKind.Response, "She presses", [5], 20),
            ],
        };

        Assert.Equal([("look", 12), ("press", 20)], WaitInUse.Of(7, card, null).Select(w => (w.Step, w.Seconds)));
        Assert.Equal([("press", 20)], WaitInUse.Of(7, card, 5).Select(w => (w.Step, w.Seconds)));
        Assert.Empty(WaitInUse.Of(7, card with { Procedure = PromptProcedure.Simultaneous }, null));
        Assert.Empty(WaitInUse.Of(7, card with { Prompts = [] }, null));
    }
}
