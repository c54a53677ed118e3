using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Web.Pages.Progress;

namespace TeamCircle.Web.Tests.Progress;

public sealed class GoalCourseWordsTests
{
    private static readonly LocalDate First = new(2026, 9, 7);

    /// <summary>Before teaching 20 three times; then a point a week, each so much above the last.</summary>
    private static GoalStanding Standing(int weeks, decimal rise)
    {
        GoalPoint[] points =
        [
            .. Enumerable.Range(0, 3).Select(i => new GoalPoint(First.PlusDays(i), 20, 8, ProbeKind.Probe, 1)),
            .. Enumerable.Range(1, weeks).Select(i => new GoalPoint(First.PlusWeeks(i), 20 + i * rise, 8, ProbeKind.Probe, 1)),
        ];
        var aims = new GoalAims(Better.Up, ProbeKind.Probe) { Target = 80, TargetDay = First.PlusWeeks(20), TeachingFrom = First.PlusWeeks(1) };
        return GoalStanding.Of(aims, points, points);
    }

    [Fact]
    public void The_trend_asks_only_from_six_points_on()
    {
        Assert.Null(GoalCourseWords.AskedByTrend(Standing(5, 1)));
        Assert.Equal("It rests on 5 points only. Six to eight are asked for before anybody decides by them.", GoalCourseWords.AsksForMore(Standing(5, 1)));
        Assert.Equal(
            "The trend (+1 a week) does not keep up with the aimline (+3.04 a week). Should the teaching change?", GoalCourseWords.AskedByTrend(Standing(6, 1)));
        Assert.Null(GoalCourseWords.AsksForMore(Standing(6, 1)));
    }

    [Fact]
    public void A_level_trend_projects_no_day() =>
        Assert.Equal("No day can be projected: the trend is level.", GoalCourseWords.Projected(Standing(6, 0), First));

    [Fact]
    public void A_projected_day_comes_with_its_width() =>
        Assert.StartsWith(
            "If it goes on as it did, the trend meets the target on 21 December 2026. The 95 percent interval of its slope allows any day from ",
            GoalCourseWords.Projected(Standing(10, 4), First.PlusWeeks(10)), StringComparison.Ordinal);

    [Theory]
    [InlineData(0.125, "+0.13")]
    [InlineData(-0.125, "-0.13")]
    [InlineData(0.001, "0")]
    public void Slopes_are_rounded_away_from_zero(double slope, string words) => Assert.Equal(words, GoalCourseWords.Slope(slope));
}
