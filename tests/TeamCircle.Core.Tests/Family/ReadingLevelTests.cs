using TeamCircle.Core.Family;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Family;

/// <summary>The Flesch-Kincaid grade against the published values (Checks/README.md), and the syllables that it rests on.</summary>
public sealed class ReadingLevelTests
{
    private const string Platypus = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.";

    [Theory]
    [InlineData("FK-01_platypus")]
    [InlineData("FK-02_cat_mat")]
    [InlineData("FK-03_min_theoretical")]
    [InlineData("FK-04_plain_summary")]
    public void Grade_of_counts_is_the_published_one(string check)
    {
        var published = Published.Read("misc.json").At(check);
        int Count(string name) => published.At(name).GetInt32();

        Assert.Equal(published.At("fkgl").GetDouble(), ReadingLevel.GradeOf(Count("words"), Count("sentences"), Count("syllables")), 1e-9);
    }

    [Fact]
    public void Grade_of_means_is_the_published_one()
    {
        var published = Published.Read("misc.json").At("FK-05_asl5.7_asw1.02");

        Assert.Equal(published.At("fkgl").GetDouble(), ReadingLevel.GradeOf(published.At("asl").GetDouble(), published.At("asw").GetDouble()), 1e-9);
    }

    [Theory]
    [InlineData(Platypus, "FK-01_platypus")]
    [InlineData("The cat sat on the mat.", "FK-02_cat_mat")]
    public void Grade_of_a_text_is_within_a_tenth_of_the_published_one(string text, string check) =>
        Assert.Equal(Published.Read("misc.json").At(check).At("fkgl").GetDouble(), Assert.NotNull(ReadingLevel.Of(text).Grade), 0.1);

    /// <summary>Syllables as dictionaries divide these words; from memory.</summary>
    [Theory]
    [InlineData("home", 1)]
    [InlineData("table", 2)]
    [InlineData("tables", 2)]
    [InlineData("makes", 1)]
    [InlineData("houses", 2)]
    [InlineData("wanted", 2)]
    [InlineData("helped", 1)]
    [InlineData("family", 3)]
    [InlineData("minutes", 2)]
    [InlineData("the", 1)]
    [InlineData("doesn't", 1)]
    [InlineData("45", 2)]
    public void Syllables_are_counted_by_the_rule(string word, int syllables) => Assert.Equal(syllables, ReadingLevel.Syllables(word));

    [Fact]
    public void Sentences_that_raise_it_are_named_and_only_where_the_whole_is_too_hard()
    {
        const string hard = "Multidisciplinary collaboration facilitates generalization of independently initiated communication.";

        var level = ReadingLevel.Of($"Wren laughs.\n{hard} She looks at 3.5 things.");

        Assert.True(level.IsTooHard);
        Assert.Equal(hard, Assert.Single(level.Raising).Sentence);
        Assert.Empty(ReadingLevel.Of("Wren laughs at the lamp. She looks at it.").Raising);
        Assert.Null(ReadingLevel.Of(" \n ... ").Grade);
    }
}
