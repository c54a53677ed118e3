namespace TeamCircle.Data.Routines;

/// <summary>Which routines were planned and practised on which days: so that one which nobody practises is seen.</summary>
/// <param name="Days">Oldest first; only those on which the agency has school, and others where there is something.</param>
public sealed record Coverage(IReadOnlyList<LocalDate> Days, IReadOnlyList<RoutineCoverage> Routines);

/// <param name="Cells">By day; a day without anything is missing.</param>
public sealed record RoutineCoverage(int Id, string Name, IReadOnlyDictionary<LocalDate, CoverageCell> Cells)
{
    public bool IsPractised => Cells.Values.Any(c => c.Practised.Count > 0);
}

/// <param name="Planned">Names of those whose visit was to hold it and where nobody has said that it was practised; called-off visits are left out.</param>
/// <param name="Practised">Names of those who logged that it was practised.</param>
/// <param name="Home">Who was to practise it at home; empty text where nobody was named.</param>
public sealed record CoverageCell(IReadOnlyList<string> Planned, IReadOnlyList<string> Practised, IReadOnlyList<string> Home);
