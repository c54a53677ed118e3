using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Tests.People;

public sealed class RelationRulesTests
{
    private const int Marisol = 1, Odalys = 2, Ines = 3, Reviewer = 4;

    private static readonly LocalDate First = new(2026, 9, 1), Today = new(2026, 10, 2);

    private static readonly StandingDates Manages = new(Marisol, Relation.CaseManager, First, null);

    private static TeamSituation Situation(params StandingDates[] standing) => new(
        new Dictionary<int, IReadOnlySet<Role>>
        {
            [Marisol] = new HashSet<Role> { Role.CaseManager },
            [Odalys] = new HashSet<Role> { Role.Provider },
            [Ines] = new HashSet<Role> { Role.Family },
            [Reviewer] = new HashSet<Role> { Role.Reviewer },
        },
        [Manages, .. standing]);

    private static IEnumerable<string> Fields(RelationEntry entry, params StandingDates[] standing) =>
        RelationRules.Check(entry, Situation(standing)).Select(p => p.Field);

    [Theory]
    [InlineData(Odalys, Relation.Team, true)]
    [InlineData(Marisol, Relation.Team, true)]
    [InlineData(Ines, Relation.Family, true)]
    [InlineData(Ines, Relation.Team, false)]
    [InlineData(Odalys, Relation.Family, false)]
    [InlineData(Odalys, Relation.CaseManager, false)]
    public void A_relation_needs_the_role_that_goes_with_it(int person, Relation kind, bool isRight) =>
        Assert.Equal(isRight, !Fields(new(person, kind, Today, null, null, null)).Any());

    [Fact]
    public void The_same_relation_never_holds_twice_on_one_day() =>
        Assert.Equal(["Person"], Fields(new(Odalys, Relation.Team, Today, null, null, null), new StandingDates(Odalys, Relation.Team, First, Today)));

    [Fact]
    public void An_assistant_has_a_supervisor_on_the_team()
    {
        Assert.Equal(["Supervisor"], Fields(new(Odalys, Relation.Assistant, Today, null, Odalys, null)));
        Assert.Empty(Fields(new(Odalys, Relation.Assistant, Today, null, Marisol, null)));
    }

    [Fact]
    public void A_reviewer_has_an_end_and_an_authority() =>
        Assert.Equal(["ToDay", "Ground"], Fields(new(Reviewer, Relation.Reviewer, Today, null, null, " ")));

    [Fact]
    public void The_last_case_manager_cannot_leave_but_after_the_next_one_is_named()
    {
        IEnumerable<string> End(params StandingDates[] others) =>
            RelationRules.CheckEnd(Manages, new(2026, 10, 16), "Leaves", Today, others).Select(p => p.Field);

        Assert.Equal(["LastDay"], End());
        Assert.Equal(["LastDay"], End(new StandingDates(Odalys, Relation.Team, First, null)));
        Assert.Equal(["LastDay"], End(new StandingDates(Odalys, Relation.CaseManager, new(2026, 10, 18), null)));
        Assert.Empty(End(new StandingDates(Odalys, Relation.CaseManager, new(2026, 10, 17), null)));
    }

    [Fact]
    public void A_provider_may_leave_with_a_reason()
    {
        var now = new StandingDates(Odalys, Relation.Team, First, null);

        Assert.Empty(RelationRules.CheckEnd(now, Today, "Leaves", Today, [Manages]));
        Assert.Equal("Reason", Assert.Single(RelationRules.CheckEnd(now, Today, null, Today, [Manages])).Field);
        Assert.Equal("LastDay", Assert.Single(RelationRules.CheckEnd(now, First.PlusDays(-1), "Leaves", Today, [Manages])).Field);
    }
}
