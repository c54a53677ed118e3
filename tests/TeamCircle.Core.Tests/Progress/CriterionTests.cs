using NodaTime;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>Worked by hand from docs/rules.md, part 13; no published values exist for these definitions.</summary>
public sealed class CriterionTests
{
    private static readonly LocalDate First = new(2026, 9, 7);

    private static readonly Criterion ThreeOfFour = new(60, Better.Up, 3, 4);

    /// <summary>One probe a day by one person; a day for each value.</summary>
    private static List<GoalPoint> Daily(params decimal[] values) => [.. values.Select((v, i) => Point(i, v))];

    private static GoalPoint Point(int day, decimal value, int person = 1, int? of = 8) => new(First.PlusDays(day), value, of, ProbeKind.Probe, person);

    [Fact]
    public void It_holds_on_the_first_day_that_completes_three_of_the_last_four() =>
        Assert.Equal(First.PlusDays(4), ThreeOfFour.FirstDay(Daily(50, 60, 70, 50, 75, 80)));

    [Fact]
    public void It_may_hold_before_there_are_as_many_days_as_it_looks_at() =>
        Assert.Equal(First.PlusDays(2), ThreeOfFour.FirstDay(Daily(60, 60, 60)));

    [Fact]
    public void Days_that_held_longer_ago_are_forgotten() =>
        Assert.Null(ThreeOfFour.FirstDay(Daily(70, 70, 50, 50, 70, 50, 70)));

    [Fact]
    public void In_a_row_forgives_no_day() =>
        Assert.Equal(First.PlusDays(5), (ThreeOfFour with { OfLast = 3 }).FirstDay(Daily(70, 70, 50, 70, 70, 70)));

    [Fact]
    public void Days_without_data_are_no_days() =>
        Assert.Equal(First.PlusDays(30), ThreeOfFour.FirstDay([Point(0, 60), Point(9, 60), Point(30, 60)]));

    [Fact]
    public void A_day_holds_only_where_all_its_points_hold()
    {
        List<GoalPoint> points = [Point(0, 60), Point(1, 60), Point(2, 60), Point(2, 40, person: 2), Point(3, 60)];

        Assert.Equal(First.PlusDays(3), ThreeOfFour.FirstDay(points));
        Assert.Equal([true, true, false, true], ThreeOfFour.DaysOf(points).Select(d => d.Holds));
    }

    [Fact]
    public void Data_of_the_other_kind_are_passed_over()
    {
        var points = Daily(60, 60, 60).ConvertAll(p => p with { Kind = ProbeKind.Teaching });

        Assert.Null(ThreeOfFour.FirstDay(points));
        Assert.Equal(First.PlusDays(2), (ThreeOfFour with { Counts = ProbeKind.Teaching }).FirstDay(points));
    }

    [Fact]
    public void Too_few_opportunities_do_not_hold_nor_do_uncounted_ones()
    {
        var asked = ThreeOfFour with { FewestOpportunities = 8 };

        Assert.True(asked.Holds(Point(0, 60, of: 8)));
        Assert.False(asked.Holds(Point(0, 100, of: 7)));
        Assert.False(asked.Holds(Point(0, 100, of: null)));
        Assert.True(ThreeOfFour.Holds(Point(0, 60, of: null)));
    }

    [Fact]
    public void Where_less_is_better_the_target_is_reached_from_above()
    {
        var seconds = new Criterion(12, Better.Down, 2, 2);

        Assert.Equal(First.PlusDays(3), seconds.FirstDay(Daily(12, 12.5m, 12, 9)));
    }

    [Fact]
    public void The_days_that_hold_include_so_many_people()
    {
        var byTwo = ThreeOfFour with { People = 2 };

        Assert.Null(byTwo.FirstDay(Daily(60, 60, 60, 60)));
        Assert.Equal(First.PlusDays(4), byTwo.FirstDay([.. Daily(60, 60, 60, 60), Point(4, 60, person: 2)]));
        Assert.Null(byTwo.FirstDay([.. Daily(60, 60, 60, 60), Point(4, 40, person: 2)])); // the second person's day does not hold
    }

    [Fact]
    public void The_days_that_hold_include_so_many_places_whatever_their_case()
    {
        var inTwo = ThreeOfFour with { Places = 2 };
        GoalPoint At(int day, string? place) => Point(day, 60) with { Place = place };

        Assert.Null(inTwo.FirstDay([At(0, "kitchen"), At(1, "Kitchen"), At(2, null)]));
        Assert.Equal(First.PlusDays(3), inTwo.FirstDay([At(0, "kitchen"), At(1, "Kitchen"), At(2, null), At(3, "porch")]));
    }

    [Fact]
    public void Standing_says_how_far_the_last_days_are() =>
        Assert.Equal(new CriterionStanding(2, 4, 1, 0, false), ThreeOfFour.Standing(Daily(60, 60, 50, 70, 50, 60)));

    [Fact]
    public void Upkeep_is_due_two_four_and_eight_weeks_after_mastery()
    {
        List<GoalPoint> points = [.. Daily(60, 60, 60), Point(17, 70), Point(45, 65)];

        var mastered = Assert.Single(ThreeOfFour.Course(points, [2, 4, 8]));

        Assert.Equal((First.PlusDays(2), null), (mastered.On, mastered.ReopenedOn));
        Assert.Equal(
            [new(First.PlusDays(16), First.PlusDays(17)), new(First.PlusDays(30), First.PlusDays(45)), new UpkeepCheck(First.PlusDays(58), null)], mastered.Upkeep);
    }

    [Fact]
    public void A_fall_below_reopens_and_the_days_from_then_on_count_anew()
    {
        List<GoalPoint> points = [.. Daily(60, 60, 60), Point(17, 40), Point(18, 60), Point(19, 60), Point(20, 60)];

        var course = ThreeOfFour.Course(points, [2, 4, 8]);

        Assert.Equal([(First.PlusDays(2), First.PlusDays(17)), (First.PlusDays(20), (LocalDate?)null)], course.Select(m => (m.On, m.ReopenedOn)));
        Assert.Equal([new UpkeepCheck(First.PlusDays(16), First.PlusDays(17))], course[0].Upkeep); // what would have been due later is not
    }

    [Fact]
    public void What_falls_short_elsewhere_does_not_reopen()
    {
        List<GoalPoint> points = [.. Daily(60, 60, 60), Point(17, 40) with { Stage = Stage.Elsewhere }];

        Assert.Null(Assert.Single(ThreeOfFour.Course(points, [2])).ReopenedOn);
    }

    [Fact]
    public void Too_few_opportunities_alone_do_not_reopen()
    {
        List<GoalPoint> points = [.. Daily(60, 60, 60), Point(17, 70, of: 3)];

        Assert.Null(Assert.Single((ThreeOfFour with { FewestOpportunities = 8 }).Course(points, [2])).ReopenedOn);
    }
}
