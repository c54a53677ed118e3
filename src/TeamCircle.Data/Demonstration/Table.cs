using System.Globalization;
using System.Text;
using CsvHelper;
using NodaTime.Text;
using TeamCircle.Core.Import;
using TeamCircle.Data.Import;

namespace TeamCircle.Data.Demonstration;

/// <summary>A table as an agency would bring it, gathered row by row.</summary>
internal sealed class Table(FileKind kind, string columns)
{
    private readonly List<object?[]> _rows = [];

    public void Add(params object?[] cells) => _rows.Add(cells);

    public BroughtFile ToFile()
    {
        using var text = new StringWriter();
        using (var csv = new CsvWriter(text, CultureInfo.InvariantCulture))
        {
            foreach (var row in _rows.Prepend(columns.Split(',')))
            {
                foreach (var cell in row)
                    csv.WriteField(Text(cell));
                csv.NextRecord();
            }
        }
        return new(FileShape.Of(kind).FileName, kind, Encoding.UTF8.GetBytes(text.ToString()));
    }

    private static string Text(object? cell) => cell switch
    {
        null => "",
        LocalDate day => LocalDatePattern.Iso.Format(day),
        LocalTime time => time.ToString("HH:mm", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => cell.ToString()!,
    };
}
