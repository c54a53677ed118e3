using System.Text.Json;
using System.Text.Json.Serialization;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Family;

/// <summary>Where an edition of a summary stands.</summary>
public enum SummaryState
{
    Draft,
    Published,

    /// <summary>Taken back; the family reads it no more.</summary>
    Withdrawn,

    /// <summary>Another edition stands in its place, or the draft was thrown away.</summary>
    Replaced,
}

/// <summary>Words in both languages of the family's page; a language in which nobody wrote anything is null.</summary>
public sealed record Both(string? English = null, string? Spanish = null)
{
    [JsonIgnore]
    public bool IsEmpty => English is null && Spanish is null;

    /// <summary>The words in a language, or else as they were written in the other one; null where there are none.</summary>
    /// <returns>The words with the language that they are in.</returns>
    public (string Words, Language Language)? In(Language language)
    {
        var (wanted, other) = language == Language.Spanish ? (Spanish, English) : (English, Spanish);
        return wanted is not null ? (wanted, language)
            : other is not null ? (other, language == Language.Spanish ? Language.English : Language.Spanish) : null;
    }

    /// <summary>Without blanks at the ends; nothing but blanks is null.</summary>
    public Both Trimmed() => new(Trim(English), Trim(Spanish));

    private static string? Trim(string? words) => string.IsNullOrWhiteSpace(words) ? null : words.ReplaceLineEndings("\n").Trim();
}

/// <summary>All that a summary tells a family, but for the frame around it. Each line of a text is a sentence or a paragraph of its own.</summary>
/// <param name="Visits">What became of each visit, a sentence each.</param>
/// <param name="Practised">What was practised.</param>
/// <param name="Hers">One thing that was the child's own.</param>
/// <param name="Next">What comes next.</param>
/// <param name="Home">How to practise at home.</param>
/// <param name="Goals">In the plan's order.</param>
/// <param name="SeenBy">Who saw what was the child's own; null where nobody is named.</param>
public sealed record SummaryContent(Both Visits, Both Practised, Both Hers, Both Next, Both Home, IReadOnlyList<SummaryGoal> Goals, string? SeenBy = null)
{
    public string Write() => JsonSerializer.Serialize(this, StrictJson.Options);

    /// <exception cref="JsonException">The text was not made by <see cref="Write"/>.</exception>
    public static SummaryContent Read(string json) => JsonSerializer.Deserialize<SummaryContent>(json, StrictJson.Options)!;
}

/// <summary>One goal in a summary.</summary>
/// <param name="Words">The goal in plain words; in English what the plan says where nobody wrote plain ones.</param>
/// <param name="Progress">Where the child is with it.</param>
/// <param name="Points">The checks that are drawn, oldest first; empty draws nothing.</param>
public sealed record SummaryGoal(int Goal, Measure Measure, Better Better, Both Words, Both Progress, IReadOnlyList<SummaryPoint> Points);

/// <param name="Of">Tries; null where nobody counted them.</param>
public sealed record SummaryPoint(NodaTime.LocalDate Day, decimal Value, int? Of = null);
