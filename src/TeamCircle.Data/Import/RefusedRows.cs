using System.Globalization;
using CsvHelper;
using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>Writes the refused rows of each table as a file that can be mended and brought again.</summary>
internal static class RefusedRows
{
    public static List<RefusedFile> Of(IReadOnlyList<RawTable> tables, IReadOnlyList<FileProblem> problems)
    {
        var byFile = problems.ToLookup(p => p.File);
        return [.. tables.Where(t => byFile.Contains(t.File)).Select(t => Of(t, byFile[t.File].ToLookup(p => p.Line))).OfType<RefusedFile>()];
    }

    private static RefusedFile? Of(RawTable table, ILookup<int, FileProblem> problems)
    {
        var rows = table.Rows.Where(r => problems.Contains(r.Line)).ToList();
        if (rows.Count == 0)
            return null;
        using var text = new StringWriter();
        using (var csv = new CsvWriter(text, CultureInfo.InvariantCulture))
        {
            Write(csv, [.. table.Header, "problem"]);
            foreach (var row in rows)
            {
                var reasons = problems[row.Line].Select(p => p.Column.Length > 0 ? $"{p.Column}: {p.Reason}" : p.Reason);
                Write(csv, [.. Enumerable.Range(0, table.Header.Count).Select(i => i < row.Cells.Count ? row.Cells[i] : ""), string.Join(" ", reasons)]);
            }
        }
        return new(Path.GetFileNameWithoutExtension(table.File) + "-refused.csv", text.ToString());
    }

    private static void Write(CsvWriter csv, IEnumerable<string> cells)
    {
        foreach (var cell in cells)
            csv.WriteField(SpreadsheetCell.Safe(cell.Trim()));
        csv.NextRecord();
    }
}
