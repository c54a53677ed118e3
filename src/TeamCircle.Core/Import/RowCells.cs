using System.Globalization;
using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>Reads the cells of one row and gathers what is wrong with it: all problems, one a column.</summary>
/// <remarks>A cell that cannot be read gives null, and the row is no longer good; rules then look only at what could be read.</remarks>
internal sealed class RowCells(RawTable table, IReadOnlyDictionary<string, int> columns, RawRow row, Findings findings)
{
    private const int LongestText = 10_000;
    private readonly HashSet<string> _refused = new(StringComparer.OrdinalIgnoreCase);

    public int Line => row.Line;

    public string File => table.File;

    /// <summary>Whether nothing was wrong so far.</summary>
    public bool IsGood => _refused.Count == 0;

    /// <summary>Whether nothing was wrong with these columns so far.</summary>
    public bool AreGood(params ReadOnlySpan<string> names)
    {
        foreach (var name in names)
        {
            if (_refused.Contains(name))
                return false;
        }
        return true;
    }

    /// <summary>Refuses the row on a column; the first reason of a column stands.</summary>
    public void Refuse(string column, string reason)
    {
        if (_refused.Add(column))
            findings.Refuse(new(table.File, row.Line, column, reason));
    }

    public void Note(string column, string text) => findings.Note(new(table.File, row.Line, column, text));

    /// <summary>The trimmed text of a cell; empty where the file has no such cell.</summary>
    public string Cell(string column)
    {
        if (!columns.TryGetValue(column, out var index) || index >= row.Cells.Count)
            return "";
        var text = row.Cells[index].Trim();
        // A file that we gave out marks cells that a spreadsheet would run.
        return text.Length > 1 && text[0] == '\'' && SpreadsheetCell.WouldRun(text.AsSpan(1)) ? text[1..] : text;
    }

    /// <summary>The text of a cell that must not be empty.</summary>
    public string? Text(string column)
    {
        if (Cell(column).Length == 0)
            Refuse(column, "This cell must not be empty.");
        return TextOrNone(column);
    }

    /// <summary>The text, or null for an empty cell.</summary>
    public string? TextOrNone(string column)
    {
        var text = Cell(column);
        if (text.Length > LongestText)
            Refuse(column, "This text is longer than 10,000 characters.");
        return text.Length == 0 ? null : text;
    }

    public LocalDate? Day(string column) => Text(column) is null ? null : DayOrNone(column);

    public LocalDate? DayOrNone(string column)
    {
        var text = Cell(column);
        if (text.Length == 0)
            return null;
        var (day, ambiguous, problem) = CellText.Date(text);
        if (problem is not null)
            Refuse(column, problem);
        if (ambiguous)
            Note(column, $"{text} was read with the month first: {day!.Value.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}.");
        return day;
    }

    public LocalTime? Time(string column) => Text(column) is null ? null : TimeOrNone(column);

    public LocalTime? TimeOrNone(string column)
    {
        var text = Cell(column);
        if (text.Length == 0)
            return null;
        var time = CellText.Time(text);
        if (time is null)
            Refuse(column, "This is not a time. Write 9:05, 09:05, 14:05 or 2:05 PM.");
        return time;
    }

    public int? Whole(string column, int least, int most) => Text(column) is null ? null : WholeOrNone(column, least, most);

    public int? WholeOrNone(string column, int least, int most)
    {
        var text = Cell(column);
        if (text.Length == 0)
            return null;
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
            return number;
        Refuse(column, string.Create(CultureInfo.InvariantCulture, $"This must be a whole number from {least} to {most}."));
        return null;
    }

    public decimal? Number(string column) => Text(column) is null ? null : NumberOrNone(column);

    public decimal? NumberOrNone(string column)
    {
        var text = Cell(column);
        if (text.Length == 0)
            return null;
        const NumberStyles plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        if (decimal.TryParse(text, plain, CultureInfo.InvariantCulture, out var number) && Math.Abs(number) < 1_000_000_000m)
            return number;
        Refuse(column, "This is not a number. Write 12 or 12.5.");
        return null;
    }

    /// <summary>A code in words; an empty cell is refused.</summary>
    public T? Word<T>(string column) where T : struct, Enum => Text(column) is null ? null : WordOrNone<T>(column);

    /// <summary>A code in words, or null for an empty cell.</summary>
    public T? WordOrNone<T>(string column) where T : struct, Enum
    {
        var text = Cell(column);
        if (text.Length == 0)
            return null;
        var found = Words.Find<T>(text);
        if (found is null)
            Refuse(column, $"This word is not known here. Write {Choice(Enum.GetValues<T>())}.");
        return found;
    }

    public Every? Every(string column)
    {
        if (Text(column) is not { } text)
            return null;
        var every = CellText.Every(text);
        if (every is null)
            Refuse(column, "This is not known here. Write week, 2 weeks, month, 3 months, period or plan year.");
        return every;
    }

    public IReadOnlyList<string> Parts(string column) => CellText.Parts(Cell(column));

    /// <summary>Refuses the row where the second of two days comes before the first.</summary>
    public void InOrder(LocalDate? first, LocalDate? last, string lastColumn)
    {
        if (first > last)
            Refuse(lastColumn, "This day comes before the first one.");
    }

    internal static string Choice<T>(IEnumerable<T> codes) where T : struct, Enum
    {
        string[] words = [.. codes.Select(Words.Of)];
        return words.Length == 1 ? words[0] : $"{string.Join(", ", words[..^1])} or {words[^1]}";
    }
}
