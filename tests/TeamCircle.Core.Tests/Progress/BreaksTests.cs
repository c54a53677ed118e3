using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>Worked by hand on a calendar of our own; docs/rules.md, part 13.</summary>
public sealed class BreaksTests
{
    private static readonly DateRange Year = DateRange.Of(new(2026, 8, 17), new(2027, 5, 28));

    private static readonly IsoDayOfWeek[] Weekdays =
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday];

    private static SchoolCalendar Calendar(params LocalDate[] closed) => new(
        Weekdays, IsoDayOfWeek.Monday, [new Term(Year.Start, Year.End, TermKind.Regular)], closed.Select(d => new SpecialDay(d, ClosureKind.Published)));

    private static LocalDate[] Days(LocalDate from, int count) => [.. Enumerable.Range(0, count).Select(from.PlusDays)];

    [Fact]
    public void Two_weeks_of_winter_closure_are_one_break_of_ten_days_over_the_weekends() =>
        Assert.Equal([new SchoolBreak(new(2026, 12, 21), new(2027, 1, 1), 10)], Breaks.Of(Calendar(Days(new(2026, 12, 21), 12)), [], Year));

    [Fact]
    public void Four_days_are_no_break_and_a_day_away_beside_them_makes_one()
    {
        var calendar = Calendar(Days(new(2026, 11, 23), 4));

        Assert.Empty(Breaks.Of(calendar, [], Year));
        Assert.Equal([new SchoolBreak(new(2026, 11, 23), new(2026, 11, 27), 5)], Breaks.Of(calendar, [DateRange.Of(new(2026, 11, 27), new(2026, 11, 27))], Year));
    }

    [Fact]
    public void A_day_of_school_in_between_ends_a_break() =>
        Assert.Empty(Breaks.Of(Calendar([.. Days(new(2026, 11, 23), 3), .. Days(new(2026, 11, 27), 1), .. Days(new(2026, 11, 30), 1)]), [], Year));

    [Fact]
    public void A_learner_in_hospital_loses_days_on_which_others_have_school() =>
        Assert.Equal([new SchoolBreak(new(2026, 9, 14), new(2026, 9, 25), 10)], Breaks.Of(Calendar(), [DateRange.Of(new(2026, 9, 12), new(2026, 9, 27))], Year));

    [Fact]
    public void Outside_the_terms_nothing_is_known() =>
        Assert.Empty(Breaks.Of(Calendar(), [], DateRange.Of(new(2027, 5, 31), new(2027, 8, 31))));

    private static readonly SchoolBreak Winter = new(new(2026, 12, 21), new(2027, 1, 1), 10);

    private static GoalPoint Point(LocalDate day, decimal value) => new(day, value, 8, ProbeKind.Probe, 1);

    [Fact]
    public void Level_lost_and_days_to_regain()
    {
        List<GoalPoint> points =
        [
            Point(new(2026, 12, 10), 75), Point(new(2026, 12, 17), 50), Point(new(2026, 12, 17), 62.5m),
            Point(new(2027, 1, 4), 25), Point(new(2027, 1, 11), 50), Point(new(2027, 1, 18), 62.5m),
        ];

        var cost = Breaks.Cost(Winter, points, Better.Up);

        Assert.Equal(new DayLevel(new(2026, 12, 17), 56.25m, 2), cost.Before);
        Assert.Equal((31.25m, new LocalDate(2027, 1, 18), 17), (cost.Lost, cost.RegainedOn, cost.DaysToRegain));
    }

    [Fact]
    public void Where_less_is_better_a_higher_level_is_worse()
    {
        var cost = Breaks.Cost(Winter, [Point(new(2026, 12, 17), 9), Point(new(2027, 1, 4), 14), Point(new(2027, 1, 6), 9)], Better.Down);

        Assert.Equal((5m, 5), (cost.Lost, cost.DaysToRegain));
    }

    [Fact]
    public void What_is_no_worse_lost_nothing_and_is_regained_at_once() =>
        Assert.Equal((0m, 3), (Breaks.Cost(Winter, [Point(new(2026, 12, 17), 50), Point(new(2027, 1, 4), 60)], Better.Up) is var c ? (c.Lost, c.DaysToRegain) : default));

    [Fact]
    public void Without_data_on_one_side_nothing_is_claimed()
    {
        var none = Breaks.Cost(Winter, [Point(new(2026, 12, 17), 50)], Better.Up);

        Assert.Equal((50m, null, null, null), (none.Before?.Level, none.After, none.Lost, none.DaysToRegain));
    }
}
