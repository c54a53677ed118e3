using NodaTime;

namespace TeamCircle.Core.Papers;

/// <summary>A licence of a person, with its last day.</summary>
/// <param name="Name">Which licence, in words.</param>
public sealed record Licence(int Person, string Name, LocalDate UntilDay);

/// <summary>Licences of people, which run out.</summary>
public static class Licences
{
    public const int LongestName = 120;

    private const int MostYearsAhead = 15;

    /// <summary>Of each licence of each person the one that holds longest: an earlier one of the same name was renewed.</summary>
    public static IEnumerable<Licence> Latest(IEnumerable<Licence> licences) =>
        licences.GroupBy(l => (l.Person, Name: l.Name.ToUpperInvariant())).Select(l => l.MaxBy(x => x.UntilDay)!);

    /// <summary>All problems of a licence that somebody enters.</summary>
    public static IEnumerable<Problem> Check(string? name, LocalDate? until, LocalDate today)
    {
        if (string.IsNullOrWhiteSpace(name) || name.Trim().Length > LongestName)
            yield return new("Name", $"Say in under {LongestName} letters which licence.");
        if (until is not { } day || day < today.PlusYears(-1) || day > today.PlusYears(MostYearsAhead))
            yield return new("UntilDay", "Give the last day on which it holds. Check the year.");
    }
}
