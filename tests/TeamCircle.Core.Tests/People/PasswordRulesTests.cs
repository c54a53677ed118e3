using TeamCircle.Core.People;

namespace TeamCircle.Core.Tests.People;

public sealed class PasswordRulesTests
{
    private static readonly string[] Context = ["TeamCircle", "odalys.ferreira@tallowfern.example", "Odalys Ferreira", "Tallowfern Education Cooperative"];

    private static bool IsTaken(string password) => PasswordRules.Check("New", password, Context).Count == 0;

    [Theory]
    [InlineData("abcdefghijklmn")] // 14
    [InlineData("")]
    [InlineData("🌱🌱🌿🌿🌵🌵🌴🌴🌲🌲🌳🌳🍀🍀")] // 14 characters of two code units each
    public void Fewer_than_fifteen_characters_are_refused(string password) => Assert.False(IsTaken(password));

    [Theory]
    [InlineData("qzkvmwplxtrhbnd")] // 15 small letters: no kinds of characters are asked for
    [InlineData("739182736455182")] // digits alone are as good
    [InlineData("herbs towel ribbons banana")]
    [InlineData("  spaces count, also here  ")]
    [InlineData("🌱🐙🌿🦉🌵🐝🌴🐢🌲🦔🌳🐳🍀🐞🍄")]
    public void Fifteen_characters_of_any_kind_are_taken(string password) => Assert.True(IsTaken(password));

    [Theory]
    [InlineData(64)]
    [InlineData(128)]
    [InlineData(256)]
    public void Long_passwords_are_taken_whole(int length) =>
        Assert.True(IsTaken(string.Concat(Enumerable.Range(0, length).Select(i => (char)('a' + (i * i + i / 7) % 26)))));

    [Fact]
    public void More_than_the_stated_bound_is_refused_and_not_cut() =>
        Assert.False(IsTaken(string.Concat(Enumerable.Range(0, 257).Select(i => (char)('a' + (i * i + i / 7) % 26)))));

    [Theory]
    [InlineData("passwordpassword")]
    [InlineData("PasswordPassword")]
    [InlineData("password1234567890")]
    [InlineData("this is my password")]
    [InlineData("qwertyuiopasdfgh")]
    [InlineData("123456789012345")]
    [InlineData("aaaaaaaaaaaaaaaaaaaa")]
    [InlineData("abcabcabcabcabcabc")]
    [InlineData("correct horse battery staple")]
    [InlineData("iloveyouiloveyou!!")]
    [InlineData("1qaz2wsx3edc4rfv")] // of the published list, whole
    [InlineData("skywalker1234567")] // and with figures after it
    public void Passwords_that_are_tried_first_are_refused(string password) => Assert.False(IsTaken(password));

    [Fact]
    public void List_that_comes_with_the_product_holds_more_than_forty_thousand() => Assert.InRange(PasswordRules.KnownCommon, 40_000, 60_000);

    [Theory]
    [InlineData("teamcircle20262026")]
    [InlineData("TeamCircleTeamCircle")]
    [InlineData("Odalys Ferreira 1")]
    [InlineData("odalys.ferreira@tallowfern.example")]
    [InlineData("tallowfern12345678")]
    [InlineData("Tallowfern Education Cooperative")]
    public void Names_of_the_person_the_agency_and_the_portal_are_refused_also_with_digits_after_them(string password) => Assert.False(IsTaken(password));

    [Fact]
    public void A_name_inside_a_longer_thought_is_no_reason_to_refuse() => Assert.True(IsTaken("odalys waters seven herbs"));

    [Fact]
    public void The_same_letter_typed_in_two_ways_is_the_same_password() =>
        Assert.Equal(PasswordRules.Normal("caf\u00e9"), PasswordRules.Normal("cafe\u0301"));
}
