using NodaTime;

namespace TeamCircle.Core.Names;

/// <summary>What holds when a learner's or a person's name changes.</summary>
public static class NameRules
{
    public const int LongestName = 100, LongestPaper = 300;

    /// <summary>All problems of a new name.</summary>
    /// <param name="from">The first day of the new name: today or before, so that it holds at once.</param>
    /// <param name="lastFrom">The first day of the name that stands; null where it is the first one.</param>
    public static IEnumerable<Problem> Check(string? name, LocalDate? from, string? paper, LocalDate? lastFrom, LocalDate today)
    {
        if (string.IsNullOrWhiteSpace(name) || name.Trim().Length > LongestName)
            yield return new("Name", $"Give the name in under {LongestName} letters.");
        if (from is not { } day || day > today)
            yield return new("FromDay", "Give the first day of the new name; it cannot be later than today.");
        else if (day <= lastFrom)
            yield return new("FromDay", "The name that stands began on that day or later.");
        if (string.IsNullOrWhiteSpace(paper) || paper.Trim().Length > LongestPaper)
            yield return new("Paper", $"Say in under {LongestPaper} letters what the change rests on, such as: court order of 5 October.");
    }
}
