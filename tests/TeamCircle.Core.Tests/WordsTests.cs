using TeamCircle.Core.Learners;

namespace TeamCircle.Core.Tests;

public sealed class WordsTests
{
    [Theory]
    [InlineData(Discipline.ParentCounselingAndTraining, "parent counseling and training")]
    [InlineData(Discipline.SpeechLanguage, "speech-language")]
    public void Words_of_a_code_are_found_again(Discipline code, string words)
    {
        Assert.Equal(words, Words.Of(code));
        Assert.Equal(code, Words.Find<Discipline>(" " + words.ToUpperInvariant() + " "));
    }
}
