using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>The days and the agency's own numbers in files of visits, read ahead: stored visits are looked up by them.</summary>
internal static class VisitDays
{
    public static (LocalDate[] Days, string[] Refs) Of(IReadOnlyList<RawTable> tables)
    {
        var days = new HashSet<LocalDate>();
        var refs = new HashSet<string>();
        foreach (var table in tables.Where(t => t.Kind == FileKind.Visits))
        {
            var (date, number) = (IndexOf(table, "date"), IndexOf(table, "ref"));
            foreach (var row in table.Rows)
            {
                if (Cell(row, date) is { } text && CellText.Date(text).Day is { } day)
                    days.Add(day);
                if (Cell(row, number) is { Length: > 0 } known)
                    refs.Add(known);
            }
        }
        return ([.. days], [.. refs]);
    }

    private static int IndexOf(RawTable table, string column) =>
        table.Header.ToList().FindIndex(h => string.Equals(h.Trim(), column, StringComparison.OrdinalIgnoreCase));

    private static string? Cell(RawRow row, int index) => index >= 0 && index < row.Cells.Count ? row.Cells[index].Trim() : null;
}
