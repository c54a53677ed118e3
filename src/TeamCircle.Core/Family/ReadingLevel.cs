using System.Text.RegularExpressions;

namespace TeamCircle.Core.Family;

/// <summary>How hard a sentence is to read.</summary>
public sealed record SentenceLevel(string Sentence, double Grade);

/// <summary>How hard an English text is to read, by Flesch-Kincaid grade (Kincaid, Fishburne, Rogers and Chissom 1975, Navy Research Branch Report 8-75).</summary>
/// <param name="Grade">The school grade; null for a text without words.</param>
/// <param name="Raising">The sentences that are harder than <see cref="Highest"/>, the hardest first; empty where the whole text is not.</param>
/// <remarks>
/// No number is given for another language: the formula's constants come from English. Syllables are counted by a rule of ours: a group of
/// vowels (y among them) is one; an e at the end is silent, but in -le after a consonant; so is the e of a final -es, but after s, x, z, c, g, ch and sh,
/// and of a final -ed, but after t and d; a word has at least one; a number has one for each digit. Vowels that meet but are spoken apart ("idea") count
/// one too few.
/// </remarks>
public sealed partial record ReadingLevel(double? Grade, IReadOnlyList<SentenceLevel> Raising)
{
    /// <summary>Above this grade the editor is asked to write more plainly. Our choice (docs/rules.md, part 15).</summary>
    public const int Highest = 8;

    public bool IsTooHard => Grade > Highest;

    public static ReadingLevel Of(string english)
    {
        var sentences = Sentences(english);
        var counts = sentences.ConvertAll(Count);
        var words = counts.Sum(c => c.Words);
        if (words == 0)
            return new(null, []);
        var grade = GradeOf(words, sentences.Count, counts.Sum(c => c.Syllables));
        var levels = sentences.Zip(counts, (s, c) => new SentenceLevel(s, GradeOf(c.Words, 1, c.Syllables)));
        return new(grade, grade <= Highest ? [] : [.. levels.Where(s => s.Grade > Highest).OrderByDescending(s => s.Grade)]);
    }

    /// <summary>The formula on counts.</summary>
    /// <param name="words">At least one.</param>
    /// <param name="sentences">At least one.</param>
    public static double GradeOf(int words, int sentences, int syllables) => GradeOf((double)words / sentences, (double)syllables / words);

    /// <summary>The formula on means: words a sentence, syllables a word.</summary>
    public static double GradeOf(double wordsASentence, double syllablesAWord) => 0.39 * wordsASentence + 11.8 * syllablesAWord - 15.59;

    /// <summary>By the rule above; at least one for a word.</summary>
    public static int Syllables(string word)
    {
        var bare = Strange().Replace(word.ToLowerInvariant(), "");
        if (bare.Length == 0)
            return 0;
        if (char.IsDigit(bare[0]))
            return bare.Length;
        return Math.Max(1, Vowels().Count(bare) - (Silent().IsMatch(bare) ? 1 : 0));
    }

    private static (int Words, int Syllables) Count(string sentence)
    {
        var words = Word().Matches(sentence);
        return (words.Count, words.Sum(w => Syllables(w.Value)));
    }

    /// <summary>A sentence ends at its mark, at the end of a line, and not at the point of a number.</summary>
    private static List<string> Sentences(string text) => [.. Ends().Split(text).Select(s => s.Trim()).Where(s => Word().IsMatch(s))];

    [GeneratedRegex(@"(?<=[.!?…])\s+|\r?\n")]
    private static partial Regex Ends();

    [GeneratedRegex(@"[\p{L}\p{N}]+(?:['’][\p{L}]+)*")]
    private static partial Regex Word();

    [GeneratedRegex(@"[^a-z0-9]")]
    private static partial Regex Strange();

    [GeneratedRegex("(?<![aeiouy])(?<![^aeiouy]l)e$|(?<![aeiouysxzcg])(?<![cs]h)(?<![^aeiouy]l)es$|(?<![aeiouytd])ed$")]
    private static partial Regex Silent();

    [GeneratedRegex("[aeiouy]+")]
    private static partial Regex Vowels();
}
