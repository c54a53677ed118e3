using System.Globalization;
using CsvHelper;

namespace TeamCircle.Data.Import;

/// <summary>Writes a table as comma-separated values by RFC 4180: a head, then the rows in their order.</summary>
public static class CsvSheet
{
    /// <param name="rows">Cells: text that is safe in a spreadsheet (<see cref="Core.Import.SpreadsheetCell.Safe"/>), a number, or null for an empty one.</param>
    public static void Write(TextWriter output, IEnumerable<string> heads, IEnumerable<IEnumerable<object?>> rows)
    {
        using var csv = new CsvWriter(output, CultureInfo.InvariantCulture, leaveOpen: true);
        foreach (var head in heads)
            csv.WriteField(head);
        csv.NextRecord();
        foreach (var row in rows)
        {
            foreach (var cell in row)
                csv.WriteField(cell);
            csv.NextRecord();
        }
    }
}
