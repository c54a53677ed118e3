using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Tests.Ui;

public sealed class InitialsTests
{
    [Fact]
    public void One_letter_is_enough_where_nobody_shares_it() =>
        Assert.Equal(["O", "B"], Of("Odalys Ferreira", "Bram Nakamura"));

    [Fact]
    public void Two_who_share_a_letter_have_both_theirs() =>
        Assert.Equal(["MQ", "MB", "P"], Of("Marisol Quenby", "Mateo Brill", "Priya Lindqvist"));

    [Fact]
    public void Who_shares_both_gets_a_number() =>
        Assert.Equal(["MQ1", "MQ2"], Of("Marisol Quenby", "Mateo Quill"));

    private static IEnumerable<string> Of(params string[] names) =>
        Initials.Of(names.Index().ToDictionary(n => n.Index, n => n.Item)).OrderBy(i => i.Key).Select(i => i.Value);
}
