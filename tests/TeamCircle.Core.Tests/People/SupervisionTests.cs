using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.People;

/// <summary>Dates worked out by hand on a wall calendar of 2026 and 2027: Monday 7 September 2026 is the first day.</summary>
public sealed class SupervisionTests
{
    private static readonly LocalDate First = new(2026, 9, 7);

    private static SupervisionStanding Every(int count, EveryUnit unit, LocalDate today, params LocalDate[] held) =>
        SupervisionRules.Standing(new(new(unit, count), First, null), held, today);

    [Fact]
    public void Every_two_weeks_runs_in_blocks_of_fourteen_days_from_the_first()
    {
        // 7 to 20 September, 21 September to 4 October, 5 to 18 October
        var standing = Every(2, EveryUnit.Week, new(2026, 10, 6), new LocalDate(2026, 9, 20));

        var missed = Assert.Single(standing.Missed);
        Assert.Equal((new LocalDate(2026, 9, 21), new LocalDate(2026, 10, 4)), (missed.First, missed.Last));
        Assert.Equal((new LocalDate(2026, 10, 18), true), (standing.DueBy, standing.IsOverdue));
    }

    [Fact]
    public void Two_visits_in_one_window_pay_for_no_other()
    {
        var standing = Every(2, EveryUnit.Week, new(2026, 9, 22), new LocalDate(2026, 9, 8), new LocalDate(2026, 9, 9));

        Assert.Empty(standing.Missed);
        Assert.Equal((new LocalDate(2026, 10, 4), false), (standing.DueBy, standing.IsOverdue));
    }

    [Fact]
    public void Visit_in_the_window_that_runs_is_all_that_it_asks() => Assert.Null(Every(1, EveryUnit.Month, new(2026, 9, 30), new LocalDate(2026, 9, 30)).DueBy);

    [Fact]
    public void Months_run_from_day_to_day_and_end_with_the_month_where_it_has_no_such_day()
    {
        var standing = SupervisionRules.Standing(new(new(EveryUnit.Month, 1), new(2027, 1, 31), null), [], new(2027, 3, 1));

        // 31 January to 27 February, 28 February to 30 March
        Assert.Equal(new LocalDate(2027, 2, 27), Assert.Single(standing.Missed).Last);
        Assert.Equal(new LocalDate(2027, 3, 30), standing.DueBy);
    }

    [Fact]
    public void Nothing_is_due_before_the_first_day_and_in_a_window_that_the_last_day_cuts_short()
    {
        Assert.Null(Every(2, EveryUnit.Week, new(2026, 9, 6)).Current);
        var ending = SupervisionRules.Standing(new(new(EveryUnit.Week, 2), First, new(2026, 9, 30)), [new(2026, 9, 7)], new(2026, 9, 25));
        Assert.Empty(ending.Missed);
        Assert.Null(ending.DueBy);
    }

    [Fact]
    public void Commitment_names_an_assistant_and_weeks_or_months() =>
        Assert.Equal(["Assistant", "EveryUnit", "EveryCount", "ToDay"],
            SupervisionRules.Check(3, new(EveryUnit.Period, 0), First, First.PlusDays(-1), new HashSet<int> { 4 }).Select(p => p.Field));

    [Fact]
    public void Visit_lies_on_a_day_of_that_assistant_and_not_to_come()
    {
        Assert.Empty(SupervisionRules.CheckVisit(First, 30, true, First));
        Assert.Equal(["OnDay"], SupervisionRules.CheckVisit(First.PlusDays(1), 30, true, First).Select(p => p.Field));
        Assert.Equal(["OnDay", "Minutes"], SupervisionRules.CheckVisit(First, 0, false, First).Select(p => p.Field));
    }
}
