namespace TeamCircle.Data.Routines;

/// <summary>Which routines were planned and practised on which days: so that one which nobody practises is seen.</summary>
/// <param name="Weeks">By their first day, as the agency's weeks begin, oldest first. Of each only the days on which the agency has school, and others
/// where there is something.</param>
public sealed record Coverage(IReadOnlyList<CoverageWeek> Weeks, IReadOnlyList<RoutineCoverage> Routines);

/// <param name="First">The first day of the week, also where there is no school on it.</param>
/// <param name="Days">Oldest first; empty in a week without anything.</param>
public sealed record CoverageWeek(LocalDate First, IReadOnlyList<LocalDate> Days);

/// <param name="Cells">By day; a day without anything is missing.</param>
public sealed record RoutineCoverage(int Id, string Name, IReadOnlyDictionary<LocalDate, CoverageCell> Cells)
{
    public bool IsPractised => Cells.Values.Any(c => c.Practised.Count + c.PractisedAtHome.Count > 0);
}

/// <param name="Planned">Names of those whose visit was to hold it and where nobody has said that it was practised; called-off visits are left out.</param>
/// <param name="Practised">Names of those who logged that it was practised.</param>
/// <param name="Home">Who was to practise it at home and did not, as far as anybody told; empty text where nobody was named.</param>
/// <param name="PractisedAtHome">Who practised it at home, in the words of whoever told.</param>
public sealed record CoverageCell(IReadOnlyList<string> Planned, IReadOnlyList<string> Practised, IReadOnlyList<string> Home, IReadOnlyList<string> PractisedAtHome);
