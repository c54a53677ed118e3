using AngleSharp.Html.Parser;
using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Tests.Ui;

public sealed class GoalStripTests
{
    private static readonly LocalDate First = new(2026, 9, 7), Today = new(2026, 9, 21);

    private static GoalShown Goal(params StripPoint[] points) => new(
        1, "Looking", "Looks.", 75, null, new GoalTerms { Measure = Measure.PercentIndependent, TeachingFrom = First.PlusDays(7) }, First, Today, null, [], [], points);

    private static StripPoint Point(int day, decimal value, ProbeKind kind = ProbeKind.Probe) => new(First.PlusDays(day), value, 8, kind);

    [Fact]
    public void Strip_runs_from_the_first_point_to_today_and_from_0_to_100()
    {
        var strip = GoalStrip.Of(Goal(Point(0, 0), Point(7, 50, ProbeKind.Teaching), Point(14, 100)), Today)!;

        var circles = new HtmlParser().ParseDocument(GoalStripTagHelper.Draw(strip)).QuerySelectorAll("circle");
        Assert.Equal([("4", "40"), ("132", "22"), ("260", "4")], circles.Select(c => (c.GetAttribute("cx"), c.GetAttribute("cy"))));
        Assert.Equal(["dot", null, "dot"], circles.Select(c => c.GetAttribute("class")));
    }

    [Fact]
    public void Words_count_before_they_say_the_latest() =>
        Assert.Equal(
            "1 probe, 1 of teaching; the latest on 14 September: 50 percent without help, 4 of 8",
            GoalStrip.Of(Goal(Point(0, 25), Point(7, 50, ProbeKind.Teaching)), Today)!.Words);

    [Fact]
    public void Where_nothing_is_recorded_there_is_no_strip() => Assert.Null(GoalStrip.Of(Goal(), Today));

    [Fact]
    public void One_point_of_today_is_drawn_too() =>
        Assert.Contains("cx=\"4\"", GoalStripTagHelper.Draw(GoalStrip.Of(Goal(Point(14, 25)), Today)!), StringComparison.Ordinal);
}
