using System.Globalization;
using NodaTime;

namespace TeamCircle.Core.Calendar;

/// <summary>A term or a reporting period as somebody typed it; what is missing is null.</summary>
/// <param name="Place">The row in the form, for problems: <c>Rows[2]</c>.</param>
/// <param name="Lane">Rows of one lane must not share days: a term's kind, or always the same for periods.</param>
public sealed record NamedRange(string Place, string? Name, LocalDate? FirstDay, LocalDate? LastDay, int Lane = 0)
{
    public bool IsWhole => !string.IsNullOrWhiteSpace(Name) && FirstDay is not null && LastDay >= FirstDay;
}

/// <summary>What holds for every list of named ranges of days: terms, reporting periods.</summary>
public static class NamedRanges
{
    /// <summary>A longer one is a slip of the year (our number: a school year and a month).</summary>
    public const int LongestDays = 400;

    /// <summary>All problems at once; none where the list can be stored.</summary>
    public static IEnumerable<Problem> Check(IReadOnlyList<NamedRange> rows)
    {
        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var row in rows)
        {
            if (string.IsNullOrWhiteSpace(row.Name))
                yield return new($"{row.Place}.Name", "Give it a name.");
            else if (!names.Add(row.Name.Trim()))
                yield return new($"{row.Place}.Name", "Another row has the same name.");
            if (row.FirstDay is null)
                yield return new($"{row.Place}.FirstDay", "Give the first day.");
            if (row.LastDay is null)
                yield return new($"{row.Place}.LastDay", "Give the last day.");
            if (Length(row) is { } problem)
                yield return problem;
        }
        foreach (var problem in Overlaps(rows))
            yield return problem;
    }

    private static Problem? Length(NamedRange row)
    {
        if (row is not { FirstDay: { } first, LastDay: { } last })
            return null;
        if (last < first)
            return new($"{row.Place}.LastDay", "The last day comes before the first.");
        return Period.DaysBetween(first, last) >= LongestDays
            ? new($"{row.Place}.LastDay", string.Create(CultureInfo.InvariantCulture, $"That is more than {LongestDays} days. Check the year."))
            : null;
    }

    private static IEnumerable<Problem> Overlaps(IReadOnlyList<NamedRange> rows)
    {
        foreach (var lane in rows.Where(r => r.IsWhole).GroupBy(r => r.Lane))
        {
            var ordered = lane.OrderBy(r => r.FirstDay).ToList();
            foreach (var (before, after) in ordered.Zip(ordered.Skip(1)))
            {
                if (after.FirstDay <= before.LastDay)
                    yield return new($"{after.Place}.FirstDay", $"\"{before.Name!.Trim()}\" already covers some of these days.");
            }
        }
    }
}
