using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Learners;

public sealed class ServiceRulesTests
{
    private static readonly LocalDate First = new(2026, 9, 14), Last = new(2027, 5, 28);
    private static readonly PlanDates Plan = new(First, new(2027, 9, 13));
    private static readonly AmountEntry TwiceThirty = new(60, null, 2, EveryUnit.Week, 1, "2 x 30 minutes weekly", null);

    private static IEnumerable<string> Fields(AmountEntry amount, Wording? wording = null, LocalDate? from = null, LocalDate? to = null) =>
        ServiceRules.Check(amount, wording, from ?? First, to ?? Last, Plan).Select(p => p.Field);

    private static IEnumerable<string> Amend(AmountEntry amount, LocalDate from, bool continuesAsNew = false, params LocalDate[] begins) =>
        ServiceRules.CheckAmendment(amount, null, from, new(First, Last), [First, .. begins], continuesAsNew).Select(p => p.Field);

    [Fact]
    public void Sessions_that_divide_the_minutes_are_stored() => Assert.Empty(Fields(TwiceThirty));

    [Theory]
    [InlineData(7)]
    [InlineData(0)]
    [InlineData(-2)]
    public void Sessions_that_do_not_divide_the_minutes_are_refused(int sessions) =>
        Assert.Equal(["Amount.Sessions"], Fields(TwiceThirty with { Sessions = sessions }));

    [Fact]
    public void A_range_needs_a_reason_and_its_high_end_above_its_low_end()
    {
        Assert.Equal(["Amount.Reason"], Fields(TwiceThirty with { QuantityTo = 90 }));
        Assert.Equal(["Amount.QuantityTo"], Fields(TwiceThirty with { QuantityTo = 60, Reason = "As written" }));
    }

    [Fact]
    public void The_plans_own_words_are_needed() => Assert.Equal(["Amount.PlanWords"], Fields(TwiceThirty with { Words = "  " }));

    [Fact]
    public void A_wording_that_promises_nothing_may_have_no_minutes_but_no_sessions()
    {
        Assert.Empty(Fields(TwiceThirty with { Quantity = 0, Sessions = null }, Wording.AsNeeded));
        Assert.Equal(["Amount.Sessions"], Fields(TwiceThirty, Wording.UpTo));
        Assert.Equal(["Amount.Quantity"], Fields(TwiceThirty with { Quantity = 0, Sessions = null }));
    }

    [Fact]
    public void Dates_lie_within_the_plan() =>
        Assert.Equal(["FromDay", "ToDay"], Fields(TwiceThirty, from: First.PlusDays(-1), to: Plan.EndDay.PlusDays(1)));

    [Theory]
    [InlineData(EveryUnit.Week, 2, true)]
    [InlineData(EveryUnit.Month, 3, true)]
    [InlineData(EveryUnit.Period, 1, true)]
    [InlineData(EveryUnit.Period, 2, false)]
    [InlineData(EveryUnit.PlanYear, 2, false)]
    [InlineData(EveryUnit.Week, 0, false)]
    [InlineData(EveryUnit.Week, 53, false)]
    public void How_often_is_one_of_the_windows_that_can_be_counted(EveryUnit unit, int count, bool isRight) =>
        Assert.Equal(isRight, ServiceRules.EveryProblem(new(unit, count)) is null);

    [Fact]
    public void An_amendment_needs_a_reason_and_a_day_inside_the_line()
    {
        Assert.Equal(["Amount.Reason", "FromDay"], Amend(TwiceThirty, First));
        Assert.Empty(Amend(TwiceThirty with { Reason = "Annual review" }, First.PlusDays(1)));
        Assert.Equal(["FromDay"], Amend(TwiceThirty with { Reason = "Annual review" }, Last.PlusDays(1)));
    }

    [Fact]
    public void Two_amendments_never_begin_on_one_day() =>
        Assert.Equal(["FromDay"], Amend(TwiceThirty with { Reason = "Review" }, new(2026, 11, 2), begins: new LocalDate(2026, 11, 2)));

    [Fact]
    public void Another_kind_of_window_comes_only_after_the_last_amendment()
    {
        var monthly = TwiceThirty with { EveryUnit = EveryUnit.Month, Reason = "Review" };

        Assert.Equal(["FromDay"], Amend(monthly, new(2026, 11, 2), continuesAsNew: true, new LocalDate(2027, 1, 11)));
        Assert.Empty(Amend(monthly, new(2027, 2, 1), continuesAsNew: true, new LocalDate(2027, 1, 11)));
    }

    [Fact]
    public void A_last_day_lies_in_the_plan_and_after_the_last_amendment()
    {
        IEnumerable<string> End(LocalDate day, string? reason = "Moved away") => ServiceRules.CheckEnd(day, new(2026, 11, 2), Plan, reason).Select(p => p.Field);

        Assert.Empty(End(new(2026, 11, 2)));
        Assert.Equal(["LastDay"], End(new(2026, 11, 1)));
        Assert.Equal(["LastDay", "Reason"], End(Plan.EndDay.PlusDays(1), ""));
    }
}
