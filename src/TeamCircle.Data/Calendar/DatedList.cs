using System.Globalization;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>One row of a form that lists terms or reporting periods; a row with nothing in it is passed over.</summary>
public sealed class DatedListRow
{
    /// <summary>Null for a row that was added.</summary>
    public int? Id { get; set; }
    public string? Name { get; set; }
    public LocalDate? FirstDay { get; set; }
    public LocalDate? LastDay { get; set; }

    /// <summary>For terms only.</summary>
    public TermKind Kind { get; set; }
    public bool Remove { get; set; }

    internal bool Counts => !Remove && (Id is not null || !string.IsNullOrWhiteSpace(Name) || FirstDay is not null || LastDay is not null);
}

/// <summary>A list that is edited as a whole: what stays, what is taken back and what is new.</summary>
internal sealed class DatedList<TRow>(IReadOnlyList<TRow> standing, IReadOnlyList<DatedListRow> typed, Func<TRow, DatedListRow> show)
    where TRow : class, ITakenBackRow, IVersionedRow
{
    private readonly List<(DatedListRow Row, int Index)> _kept = [.. typed.Select((row, i) => (row, i)).Where(r => r.row.Counts)];

    /// <summary>What the form began on; another one means that somebody saved meanwhile.</summary>
    public static string Stamp(IEnumerable<TRow> rows, Func<TRow, int> id) =>
        string.Join(',', rows.OrderBy(id).Select(r => string.Create(CultureInfo.InvariantCulture, $"{id(r)}.{r.Version}")));

    public IEnumerable<Problem> Problems(string? reason)
    {
        foreach (var problem in NamedRanges.Check([.. _kept.Select(Range)]))
            yield return problem;
        if (TakenBack.Count > 0 && string.IsNullOrWhiteSpace(reason))
            yield return new("Reason", "Say why what was there changes.");
    }

    public IReadOnlyList<TRow> TakenBack => [.. standing.Where(row => !_kept.Exists(k => IsSame(k.Row, show(row))))];

    public IReadOnlyList<DatedListRow> Added => [.. _kept.Select(k => k.Row).Where(k => !standing.Any(row => IsSame(k, show(row))))];

    /// <summary>The days that mean something else afterwards: of a row whose ends moved, only the days between.</summary>
    public IReadOnlyList<DateInterval> ChangedDays
    {
        get
        {
            var days = new List<DateInterval>();
            foreach (var row in TakenBack.Select(show))
            {
                if (Added.FirstOrDefault(a => a.Id == row.Id && a.Kind == row.Kind) is { } after)
                    days.AddRange(Between(row, after));
                else
                    days.Add(new(row.FirstDay!.Value, row.LastDay!.Value));
            }
            days.AddRange(Added.Where(a => !standing.Select(show).Any(s => s.Id == a.Id && s.Kind == a.Kind))
                .Select(a => new DateInterval(a.FirstDay!.Value, a.LastDay!.Value)));
            return days;
        }
    }

    private static IEnumerable<DateInterval> Between(DatedListRow before, DatedListRow after)
    {
        if (Apart(before.FirstDay!.Value, after.FirstDay!.Value) is { } start)
            yield return start;
        if (Apart(before.LastDay!.Value.PlusDays(1), after.LastDay!.Value.PlusDays(1)) is { } end)
            yield return end;
    }

    private static DateInterval? Apart(LocalDate one, LocalDate other) =>
        one == other ? null : new(LocalDate.Min(one, other), LocalDate.Max(one, other).PlusDays(-1));

    private static NamedRange Range((DatedListRow Row, int Index) kept) =>
        new(string.Create(CultureInfo.InvariantCulture, $"Rows[{kept.Index}]"), kept.Row.Name, kept.Row.FirstDay, kept.Row.LastDay, (int)kept.Row.Kind);

    private static bool IsSame(DatedListRow one, DatedListRow other) =>
        one.Id == other.Id && one.Name?.Trim() == other.Name && one.FirstDay == other.FirstDay && one.LastDay == other.LastDay && one.Kind == other.Kind;
}
