using NodaTime;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Tests.Account;

/// <summary>Who needs a second step (OWASP ASVS 5.0, 6.3.3).</summary>
public sealed class SecondStepRulesTests
{
    private static Caller In(params Role[] roles) => new(1, 1, "", roles.ToHashSet(), [], new LocalDate(2026, 10, 2));

    private static Lack Lacks(Caller? caller, SecondStep shown = SecondStep.None, bool hasFactor = false, bool isDemonstration = false, bool familiesNeedIt = false) =>
        SecondStepRules.LackOf(shown, hasFactor, isDemonstration, caller, familiesNeedIt);

    [Fact]
    public void Every_role_but_that_of_a_family_needs_one_also_where_somebody_is_family_too()
    {
        foreach (var role in Enum.GetValues<Role>().Where(r => r is not Role.Family))
        {
            Assert.Equal(Lack.Factor, Lacks(In(role)));
            Assert.Equal(Lack.Factor, Lacks(In(role, Role.Family)));
        }
        Assert.Equal(Lack.Nothing, Lacks(In(Role.Family)));
        Assert.Equal(Lack.Factor, Lacks(In(Role.Family), familiesNeedIt: true));
    }

    [Fact]
    public void Whoever_has_a_factor_is_asked_for_it_family_demonstration_and_no_agency_alike()
    {
        foreach (var caller in new[] { In(Role.Family), In(Role.Provider), null })
        {
            Assert.Equal(Lack.SecondStep, Lacks(caller, hasFactor: true, isDemonstration: true));
            foreach (var shown in Enum.GetValues<SecondStep>().Where(s => s is not SecondStep.None))
                Assert.Equal(Lack.Nothing, Lacks(caller, shown, hasFactor: true));
        }
    }

    [Fact]
    public void Demonstration_and_an_account_before_its_choice_of_an_agency_need_none_yet()
    {
        Assert.Equal(Lack.Nothing, Lacks(In(Role.Director), isDemonstration: true));
        Assert.Equal(Lack.Nothing, Lacks(null));
    }

    [Fact]
    public void Families_words_stand_in_both_languages_with_the_same_blanks()
    {
        var all = typeof(SecondStepWords).GetFields().Select(f => (f.Name, Phrase: (Phrase)f.GetValue(null)!)).ToList();
        Assert.True(all.Count > 40);
        Assert.All(all, one => Assert.Equal((one.Name, one.Phrase.English.Contains("{0}", StringComparison.Ordinal)), (one.Name, one.Phrase.Spanish.Contains("{0}", StringComparison.Ordinal))));
        Assert.All(all, one => Assert.NotEqual(one.Phrase.English, one.Phrase.Spanish));
    }
}
