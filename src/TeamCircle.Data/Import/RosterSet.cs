using System.Globalization;
using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>A OneRoster set, and the agency's own files that come of it, to be completed. Nothing is stored (decision 38).</summary>
public static class RosterSet
{
    /// <param name="files">Files of a set; others among them are refused.</param>
    /// <param name="today">The day on which roles are to hold.</param>
    public static RosterReading Read(IReadOnlyList<BroughtFile> files, LocalDate today)
    {
        if (files.FirstOrDefault(f => !FileShape.IsRoster(f.Kind)) is { } other)
            return new() { Problems = [new(other.Name, 1, "", "This file belongs to no OneRoster set. Bring the set by itself, and the agency's own files after it.")] };
        var (brought, problems) = ReadBrought.Run(files, _ => false, today);
        return problems.Count > 0 ? new() { Problems = problems } : ReadRoster.Run(brought.Tables, today);
    }

    /// <summary>The files to complete: each with all its columns, and empty cells for what no set knows. Files without a row are left out.</summary>
    public static IReadOnlyList<(string Name, string Text)> Files(RosterReading reading) =>
    [
        .. new[]
        {
            File(FileKind.Terms, reading.Terms.Select(t => Cells(("name", t.Name), ("first day", Day(t.First)), ("last day", Day(t.Last)), ("kind", "regular")))),
            File(FileKind.Periods, reading.Periods.Select(p => Cells(("name", p.Name), ("start", Day(p.First)), ("end", Day(p.Last))))),
            File(FileKind.People, reading.People.Select(p => Cells(("email", p.Email), ("name", p.Name), ("roles", string.Join(';', p.Roles))))),
            File(FileKind.Learners, reading.Learners.Select(l => Cells(("code", l.Code), ("name", l.Name), ("family", string.Join(';', l.Family))))),
        }.Where(f => f.Rows > 0).Select(f => (f.Name, f.Text)),
    ];

    private static (string Name, string Text, int Rows) File(FileKind kind, IEnumerable<Dictionary<string, string>> rows)
    {
        var shape = FileShape.Of(kind);
        string[] columns = [.. shape.Required, .. shape.Optional];
        List<object?[]> cells = [.. rows.Select(row => columns.Select(c => row.TryGetValue(c, out var text) ? (object?)SpreadsheetCell.Safe(text) : null).ToArray())];
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        CsvSheet.Write(text, columns, cells);
        return (shape.FileName, text.ToString(), cells.Count);
    }

    private static Dictionary<string, string> Cells(params ReadOnlySpan<(string Column, string Text)> cells)
    {
        var row = new Dictionary<string, string>();
        foreach (var (column, text) in cells)
            row[column] = text;
        return row;
    }

    private static string Day(LocalDate day) => day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
}
