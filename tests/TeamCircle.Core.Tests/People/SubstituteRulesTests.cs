using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Tests.People;

public sealed class SubstituteRulesTests
{
    private const int Odalys = 1, Hale = 2, Priya = 3, Ines = 4, Wren = 14;

    private static readonly LocalDate Today = new(2026, 10, 2);

    private static readonly TeamSituation Situation = new(
        new Dictionary<int, IReadOnlySet<Role>>
        {
            [Odalys] = new HashSet<Role> { Role.Provider },
            [Hale] = new HashSet<Role> { Role.Provider },
            [Priya] = new HashSet<Role> { Role.Provider },
            [Ines] = new HashSet<Role> { Role.Family },
        },
        [new(Odalys, Relation.Team, new(2026, 8, 17), null), new(Priya, Relation.Team, new(2026, 8, 17), new(2026, 10, 4))]);

    private static IEnumerable<string> Fields(int? person, LocalDate first, LocalDate? last) =>
        SubstituteRules.Check(person, Odalys, first, last, Today, Situation).Select(p => p.Field);

    [Fact]
    public void Colleague_who_does_not_work_with_the_learner_comes_for_a_day_or_for_thirty()
    {
        Assert.Empty(Fields(Hale, Today, null));
        Assert.Empty(Fields(Hale, Today, Today.PlusDays(29)));
        Assert.Equal(["LastDay"], Fields(Hale, Today, Today.PlusDays(30)));
        Assert.Empty(Fields(Priya, new(2026, 10, 5), null)); // the day after she has left the team
    }

    [Theory]
    [InlineData(null)]
    [InlineData(Odalys)] // whose visits they are
    [InlineData(Priya)] // hands over instead
    [InlineData(Ines)]
    [InlineData(99)]
    public void Nobody_else_can_be_sent(int? person) => Assert.Equal(["Person"], Fields(person, Today, null));

    [Fact]
    public void Day_that_is_over_has_no_substitute() => Assert.Equal(["LastDay"], Fields(Hale, Today.PlusDays(-1), null));

    [Theory]
    [InlineData(Relation.Team, true, false, true)]
    [InlineData(Relation.CaseManager, true, false, true)]
    [InlineData(Relation.Assistant, false, true, true)]
    [InlineData(Relation.Substitute, false, false, true)]
    [InlineData(Relation.Family, false, false, false)]
    public void Team_in_full_an_assistant_and_a_substitute_reach_different_pages(Relation relation, bool member, bool assistant, bool team)
    {
        var caller = new Caller(1, Hale, "", new HashSet<Role> { Role.Provider }, [new(Wren, relation)], Today);
        bool Opens(Ground ground) => AccessRules.FirstOpen([ground], caller, Wren) is not null;

        Assert.Equal((member, assistant, team), (Opens(Ground.Member), Opens(Ground.Assistant), Opens(Ground.Team)));
        Assert.Equal(relation == Relation.Substitute, caller.StandsIn(Wren));
        Assert.Equal(member, caller.AsMember().Learners.Contains(Wren));
    }
}
