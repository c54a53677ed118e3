using System.Globalization;
using NodaTime;

namespace TeamCircle.Core.Calendar;

/// <summary>A closure or an extra day, as somebody typed it: of one day, or of all days of a range.</summary>
/// <param name="LastDay">Null: the first day only.</param>
public sealed record ClosureEntry(string? Name, ClosureKind Kind, LocalDate? FirstDay, LocalDate? LastDay, string? Reason);

/// <summary>A special day to be entered in the calendar.</summary>
public sealed record NewClosure(LocalDate OnDay, string Name, ClosureKind Kind);

/// <summary>What may be entered in a calendar as closed, or as an extra day of school (docs/rules.md, part 1).</summary>
public static class ClosureRules
{
    /// <summary>A longer one is a slip of the year (our number).</summary>
    public const int LongestDays = 62;

    /// <summary>The days to enter, or all problems at once.</summary>
    /// <param name="entry">What was typed.</param>
    /// <param name="isOrdinary">Whether the weekday of a day is an ordinary one: other days of a closed range need no entry.</param>
    /// <param name="taken">Days that are in the calendar already.</param>
    public static Outcome<IReadOnlyList<NewClosure>> Check(
        ClosureEntry entry, Func<LocalDate, bool> isOrdinary, IReadOnlySet<LocalDate> taken)
    {
        Problem[] problems = [.. Problems(entry)];
        if (problems.Length > 0)
            return Outcome<IReadOnlyList<NewClosure>>.Refused(problems);
        var days = Days(entry, isOrdinary);
        if (days.Count == 0)
            return Refused("FirstDay", "There is no school on these weekdays anyway, so there is nothing to close.");
        if (days.FirstOrDefault(taken.Contains, LocalDate.MinIsoValue) is var clash && clash != LocalDate.MinIsoValue)
            return Refused("FirstDay", string.Create(CultureInfo.InvariantCulture, $"{clash:d MMMM yyyy} is already in the calendar as a closure or an extra day. Take that back first."));
        return Outcome<IReadOnlyList<NewClosure>>.Of([.. days.Select(day => new NewClosure(day, entry.Name!.Trim(), entry.Kind))]);
    }

    private static Outcome<IReadOnlyList<NewClosure>> Refused(string field, string message) =>
        Outcome<IReadOnlyList<NewClosure>>.Refused(field, message);

    private static IEnumerable<Problem> Problems(ClosureEntry entry)
    {
        if (string.IsNullOrWhiteSpace(entry.Name))
            yield return new("Name", "Give it the name that the calendar shows, such as \"Snow\" or \"Winter break\".");
        if (string.IsNullOrWhiteSpace(entry.Reason))
            yield return new("Reason", "Say why the calendar changes.");
        if (entry.FirstDay is not { } first)
            yield return new("FirstDay", "Give the day.");
        else if (entry.LastDay is { } last && last < first)
            yield return new("LastDay", "The last day comes before the first.");
        else if (entry.LastDay is { } far && Period.DaysBetween(first, far) >= LongestDays)
            yield return new("LastDay", string.Create(CultureInfo.InvariantCulture, $"That is more than {LongestDays} days. Check the dates, or shorten the term."));
    }

    private static List<LocalDate> Days(ClosureEntry entry, Func<LocalDate, bool> isOrdinary)
    {
        var (first, last) = (entry.FirstDay!.Value, entry.LastDay ?? entry.FirstDay!.Value);
        return [.. Enumerable.Range(0, Period.DaysBetween(first, last) + 1).Select(first.PlusDays)
            .Where(day => entry.Kind == ClosureKind.Extra || isOrdinary(day))];
    }
}
