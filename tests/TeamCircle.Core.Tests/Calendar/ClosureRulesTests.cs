using NodaTime;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Core.Tests.Calendar;

public sealed class ClosureRulesTests
{
    private static readonly ClosureEntry Snow = new("Snow", ClosureKind.Unscheduled, new(2026, 12, 3), null, "Roads closed");

    private static Outcome<IReadOnlyList<NewClosure>> Check(ClosureEntry entry, params LocalDate[] taken) =>
        ClosureRules.Check(entry, day => day.DayOfWeek is not (IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday), taken.ToHashSet());

    [Fact]
    public void One_day_is_entered() =>
        Assert.Equal(new NewClosure(new(2026, 12, 3), "Snow", ClosureKind.Unscheduled), Assert.Single(Check(Snow).Value!));

    [Fact]
    public void A_closed_range_leaves_weekends_out() =>
        Assert.Equal([4, 7, 8], Check(Snow with { FirstDay = new(2026, 12, 4), LastDay = new(2026, 12, 8) }).Value!.Select(d => d.OnDay.Day));

    [Fact]
    public void An_extra_day_may_be_a_Saturday() =>
        Assert.Equal(new(2026, 12, 5), Assert.Single(Check(Snow with { Kind = ClosureKind.Extra, FirstDay = new(2026, 12, 5) }).Value!).OnDay);

    [Fact]
    public void Closing_a_Saturday_closes_nothing_and_is_refused() =>
        Assert.Equal("FirstDay", Assert.Single(Check(Snow with { FirstDay = new(2026, 12, 5) }).Problems).Field);

    [Fact]
    public void A_day_in_the_calendar_already_is_refused_and_named() =>
        Assert.Contains("3 December 2026", Assert.Single(Check(Snow, new LocalDate(2026, 12, 3)).Problems).Message, StringComparison.Ordinal);

    [Fact]
    public void Name_day_and_reason_are_asked_for_at_once() =>
        Assert.Equal(["Name", "Reason", "FirstDay"], Check(new(" ", ClosureKind.Published, null, null, "")).Problems.Select(p => p.Field));

    [Fact]
    public void A_range_that_is_far_too_long_is_refused() =>
        Assert.Equal("LastDay", Assert.Single(Check(Snow with { LastDay = new(2027, 12, 3) }).Problems).Field);
}
