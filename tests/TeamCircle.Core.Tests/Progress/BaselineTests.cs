using NodaTime;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>Worked by hand from docs/rules.md, part 13.</summary>
public sealed class BaselineTests
{
    private static readonly LocalDate First = new(2026, 9, 7);
    private static readonly LocalDate Teaching = First.PlusDays(10);

    private static GoalPoint Point(int day, decimal value, Stage? stage = null) => new(First.PlusDays(day), value, 8, ProbeKind.Probe, 1) { Stage = stage };

    [Fact]
    public void It_is_the_median_of_what_came_before_teaching() =>
        Assert.Equal(new Baseline(25, First.PlusDays(9), 3), Baseline.Of([Point(0, 50), Point(9, 25), Point(3, 12.5m), Point(10, 75)], Teaching, null));

    [Fact]
    public void Of_an_even_number_it_is_the_mean_of_the_two_in_the_middle() =>
        Assert.Equal(18.75m, Baseline.Of([Point(0, 50), Point(1, 25), Point(2, 12.5m), Point(3, 0)], Teaching, null)?.Level);

    [Fact]
    public void Two_points_are_too_few_and_the_level_that_the_plan_states_stands_in()
    {
        List<GoalPoint> two = [Point(0, 50), Point(1, 25)];

        Assert.Equal(new Baseline(20, First, 0), Baseline.Of(two, Teaching, (20, First)));
        Assert.Null(Baseline.Of(two, Teaching, null));
    }

    [Fact]
    public void A_stage_that_was_recorded_goes_before_the_day()
    {
        Assert.Equal(Stage.DuringTeaching, GoalStages.Of(Point(10, 0), Teaching));
        Assert.Equal(Stage.BeforeTeaching, GoalStages.Of(Point(10, 0, Stage.BeforeTeaching), Teaching));
        Assert.Equal(Stage.BeforeTeaching, GoalStages.Of(Point(10, 0), null));
    }

    [Fact]
    public void Teaching_began_as_written_or_with_the_first_point_that_says_so()
    {
        List<GoalPoint> points = [Point(0, 0, Stage.BeforeTeaching), Point(5, 0, Stage.DuringTeaching), Point(7, 0, Stage.Elsewhere)];

        Assert.Equal(Teaching, GoalStages.TeachingFrom(Teaching, points));
        Assert.Equal(First.PlusDays(5), GoalStages.TeachingFrom(null, points));
        Assert.Null(GoalStages.TeachingFrom(null, [Point(0, 0), Point(1, 0, Stage.BeforeTeaching)]));
    }
}
