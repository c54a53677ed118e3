using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Tests.Learners;

/// <summary>34 CFR 300.323(d): each teacher and provider is informed of their responsibilities under the plan. Text from eCFR, read from memory.</summary>
public sealed class AcknowledgmentRulesTests
{
    private const int Bram = 2, Priya = 3;

    private static readonly LocalDate September = new(2026, 9, 1), October = new(2026, 10, 1);

    [Fact]
    public void Amendment_asks_anew_whoever_read_the_plan_before_it()
    {
        PlanReading[] readings = [new(Bram, 4, September), new(Priya, 4, September), new(Priya, 6, October)];

        Assert.Equal((PlanKnown.AsItStands, September), AcknowledgmentRules.Of(Bram, 4, readings));
        Assert.Equal((PlanKnown.Earlier, September), AcknowledgmentRules.Of(Bram, 6, readings));
        Assert.Equal((PlanKnown.AsItStands, October), AcknowledgmentRules.Of(Priya, 6, readings));
        Assert.Equal((PlanKnown.Never, null), AcknowledgmentRules.Of(9, 4, readings));
    }

    [Theory]
    [InlineData(Relation.Team, true)]
    [InlineData(Relation.CaseManager, true)]
    [InlineData(Relation.Assistant, true)]
    [InlineData(Relation.Substitute, false)]
    [InlineData(Relation.Family, false)]
    [InlineData(Relation.Reviewer, false)]
    public void Whoever_works_with_the_learner_for_longer_than_a_day_is_asked(Relation relation, bool asked) =>
        Assert.Equal(asked, AcknowledgmentRules.IsAsked(relation));
}
