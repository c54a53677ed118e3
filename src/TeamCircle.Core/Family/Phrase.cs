using System.Globalization;

namespace TeamCircle.Core.Family;

/// <summary>One thing that the family's page says, in both languages. {0}, {1} ... stand for what is put in, alike in both.</summary>
public sealed record Phrase(string English, string Spanish)
{
    public string In(Language language) => language == Language.Spanish ? Spanish : English;

    /// <summary>With its blanks filled.</summary>
    public string In(Language language, params string[] parts)
    {
        var words = In(language);
        for (var i = 0; i < parts.Length; i++)
            words = words.Replace($"{{{i.ToString(CultureInfo.InvariantCulture)}}}", parts[i], StringComparison.Ordinal);
        return words;
    }
}
