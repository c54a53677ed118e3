using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Things;

/// <summary>What a card says of a thing that is out of order, on paper, on a page and on a device without network.</summary>
public static class ThingSentences
{
    /// <summary>Palm switch: out of order since 5 October. The cable is torn.</summary>
    public static string Out(string thing, Outage outage) => $"{thing}: out of order since {ClockWords.Day(outage.From)}. {Sentence(outage.Happened)}".TrimEnd();

    /// <summary>Meanwhile: Use the flat one. Loaner: flat switch, grey. Null where nobody said what to do.</summary>
    public static string? Meanwhile(Outage outage, string? loaner)
    {
        var words = $"{(outage.Meanwhile is { } meanwhile ? $"Meanwhile: {Sentence(meanwhile)}" : "")} {(loaner is null ? "" : $"Loaner: {Sentence(loaner)}")}".Trim();
        return words.Length == 0 ? null : words;
    }

    /// <summary>What somebody typed, as a sentence: it begins with a capital and ends with a stop.</summary>
    public static string Sentence(string words) => words.Length == 0 ? words
        : char.ToUpperInvariant(words[0]) + words[1..] + (words[^1] is '.' or '!' or '?' ? "" : ".");
}
