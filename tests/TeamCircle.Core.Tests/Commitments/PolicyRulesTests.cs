using NodaTime;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Tests.Commitments;

public sealed class PolicyRulesTests
{
    private const int Director = 7;

    private static readonly LocalDate Begun = new(2026, 8, 17), Next = new(2026, 10, 19);

    private static readonly PolicySituation Situation = new(new(2026, 10, 2), new HashSet<LocalDate> { Begun, Next }, new HashSet<int> { Director });

    private static readonly PolicyEntry Good =
        new(Next, Policy.Default with { ShortWindow = ShortWindow.Prorated }, "Weeks with holidays count by their days.", "Handbook, 4.2", "Board decision", Director);

    private static IEnumerable<string> Fields(PolicyEntry entry, PolicySituation? situation = null) =>
        PolicyRules.Check(entry, situation ?? Situation).Select(p => p.Field);

    [Fact]
    public void A_policy_from_a_period_to_come_with_reason_and_second_person_is_stored() => Assert.Empty(Fields(Good));

    [Fact]
    public void A_period_that_has_begun_is_refused() => Assert.Equal(["FromDay"], Fields(Good with { FromDay = Begun }));

    [Fact]
    public void A_period_that_begins_today_has_begun() => Assert.Equal(["FromDay"], Fields(Good, Situation with { Today = Next }));

    [Fact]
    public void A_day_on_which_no_period_begins_is_refused() => Assert.Equal(["FromDay"], Fields(Good with { FromDay = Next.PlusDays(1) }));

    [Fact]
    public void Reason_and_second_person_are_needed() =>
        Assert.Equal(["Reason", "SecondPerson"], Fields(Good with { Reason = " ", SecondPerson = null }));

    [Fact]
    public void One_who_may_not_agree_is_no_second_person() => Assert.Equal(["SecondPerson"], Fields(Good with { SecondPerson = Director + 1 }));

    [Fact]
    public void A_policy_other_than_the_default_quotes_its_words_and_where_they_are_written() =>
        Assert.Equal(["Words", "WrittenIn"], Fields(Good with { Words = null, WrittenIn = "" }));

    [Fact]
    public void The_default_needs_no_words() => Assert.Empty(Fields(Good with { Policy = Policy.Default, Words = null, WrittenIn = null }));

    [Theory]
    [InlineData(-1, 100, "TolerancePercent")]
    [InlineData(101, 100, "TolerancePercent")]
    [InlineData(0, 0, "SessionShare")]
    [InlineData(0, 101, "SessionShare")]
    public void Percents_stay_in_their_range(int tolerance, int share, string field) =>
        Assert.Equal([field], Fields(Good with { Policy = new(ShortWindow.InFull, Surplus.EachWindowAlone, tolerance, share) }));
}
