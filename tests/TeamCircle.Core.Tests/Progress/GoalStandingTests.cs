using NodaTime;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>How a goal's figures are put together; the figures themselves are held to published values elsewhere. Worked by hand.</summary>
public sealed class GoalStandingTests
{
    private static readonly LocalDate First = new(2026, 9, 7);

    private static readonly GoalAims Aims = new(Better.Up, ProbeKind.Probe)
    {
        Target = 80,
        TargetDay = First.PlusDays(70),
        TeachingFrom = First.PlusDays(14),
    };

    private static GoalPoint Point(int day, decimal value) => new(First.PlusDays(day), value, 8, ProbeKind.Probe, 1);

    /// <summary>Before teaching 10, 20, 30; during it 10 more each week.</summary>
    private static readonly GoalPoint[] Points = [Point(0, 10), Point(7, 30), Point(10, 20), Point(14, 30), Point(21, 40), Point(28, 50), Point(35, 60)];

    private static GoalStanding Of(GoalAims? aims = null, GoalPoint[]? shown = null) => GoalStanding.Of(aims ?? Aims, Points, shown ?? Points);

    [Fact]
    public void The_aimline_leads_from_the_baselines_last_day_to_the_target()
    {
        var aimline = Of().Aimline!;

        Assert.Equal((Day.Of(First.PlusDays(10)), 20m, 1.0), (aimline.BaselineDay, aimline.Baseline, aimline.PerDay)); // 60 in 60 days
    }

    [Fact]
    public void The_trend_rests_on_teaching_alone_and_meets_the_target_when_it_does()
    {
        var standing = Of();

        Assert.Equal(4, standing.Taught.Count);
        Assert.Equal(10, standing.PerWeek!.Value, 9);
        Assert.Equal(30, standing.TrendOn(First.PlusDays(14))!.Value, 6);
        Assert.Equal(First.PlusDays(49), Day.Date(standing.Projection.Day!.Value));
        Assert.Equal((Question.RaiseTarget, Question.RaiseTarget), (standing.Asked, standing.AskedByTrend)); // 30 on day 14 lies above 24, and 10 a week above 7
    }

    [Fact]
    public void Three_in_a_row_ask_sooner_than_four()
    {
        GoalPoint[] three = [.. Points.Take(6)];

        Assert.Equal(Question.TooFew, GoalStanding.Of(Aims, Points, three).Asked);
        Assert.Equal(Question.RaiseTarget, GoalStanding.Of(Aims with { InARow = 3 }, Points, three).Asked);
    }

    [Fact]
    public void Teaching_data_and_what_was_taken_elsewhere_are_none_of_the_trends()
    {
        GoalPoint[] more = [.. Points, Point(40, 0) with { Kind = ProbeKind.Teaching }, Point(41, 0) with { Stage = Stage.Elsewhere }];

        Assert.Equal(4, GoalStanding.Of(Aims, more, more).Taught.Count);
    }

    [Fact]
    public void A_filter_touches_the_trend_and_neither_baseline_nor_criterion()
    {
        var criterion = new Criterion(30, Better.Up, 2, 2);

        var standing = Of(Aims with { Criterion = criterion }, [.. Points.Where(p => p.Value == 40)]);

        Assert.Equal((1, 20m), (standing.Taught.Count, standing.Baseline!.Level));
        Assert.Equal("too few different days (have 1, need 2)", standing.Trend.Slope.Why);
        Assert.Equal(First.PlusDays(21), Assert.Single(standing.Mastered).On);
    }

    [Fact]
    public void Numbers_of_prompts_are_not_joined_over_another_order() =>
        Assert.Equal(2, Of(Aims with { ComparableFrom = First.PlusDays(28) }).Taught.Count);

    [Fact]
    public void Without_an_aimline_it_says_why_and_asks_nothing()
    {
        Assert.Equal("there is no target", Of(Aims with { Target = null }).WhyNoAimline);
        Assert.Equal("the target has no date", Of(Aims with { TargetDay = null }).WhyNoAimline);
        Assert.StartsWith("there is no baseline", GoalStanding.Of(Aims, Points[5..], Points).WhyNoAimline, StringComparison.Ordinal);
        Assert.Equal("the target's date is not after the baseline", Of(Aims with { TargetDay = First.PlusDays(10) }).WhyNoAimline);
        Assert.Null(Of(Aims with { Target = null }).Asked);
        Assert.Equal("there is no target", Of(Aims with { Target = null }).Projection.Why);
    }

    [Fact]
    public void A_filter_keeps_what_was_said_and_leaves_out_what_nobody_said()
    {
        var said = Point(0, 10) with { State = StateOfLearner.QuietAlert, Position = "In her chair", Side = "left", Place = "kitchen" };

        Assert.True(new ConditionFilter(AlertOnly: true, "in her chair", "left", "kitchen").Keeps(said));
        Assert.True(new ConditionFilter(AlertOnly: true).Keeps(said with { State = StateOfLearner.ActiveAlert }));
        Assert.False(new ConditionFilter(AlertOnly: true).Keeps(said with { State = StateOfLearner.Drowsy }));
        Assert.False(new ConditionFilter(Side: "right").Keeps(said));
        Assert.False(new ConditionFilter(Place: "kitchen").Keeps(Point(0, 10)));
        Assert.True(new ConditionFilter().Keeps(Point(0, 10)));
    }
}
