using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>Splits the text of a table into rows and cells, each row with the physical line on which it starts.</summary>
internal static class CsvTable
{
    private const string Separator = "sep=";

    public static RawTable Read(FileKind kind, string file, string text)
    {
        var skipped = text.StartsWith(Separator, StringComparison.OrdinalIgnoreCase) ? LengthOfLine(text) : 0;
        var body = text[skipped..];
        var named = skipped > Separator.Length ? text[Separator.Length] : '\0';
        var rows = Rows(body, named is ',' or ';' ? named : Delimiter(body), skipped > 0 ? 2 : 1);
        if (rows.Count == 0)
            return new(kind, file, 0, [], []);
        return new(kind, file, rows[0].Line, rows[0].Cells, rows[1..]);
    }

    /// <summary>All rows that are not blank, the header first.</summary>
    private static List<RawRow> Rows(string text, char delimiter, int line)
    {
        var isBad = false;
        using var parser = new CsvParser(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = delimiter.ToString(),
            IgnoreBlankLines = false, // they have lines too
            BadDataFound = _ => isBad = true,
        });
        var rows = new List<RawRow>();
        while (parser.Read())
        {
            string[] cells = parser.Record ?? [];
            var fault = isBad || HasOpenQuote(parser.RawRecord) ? "The quotation marks of this row do not match." : null;
            if (fault is not null || !Array.TrueForAll(cells, string.IsNullOrWhiteSpace))
                rows.Add(new(line, cells, fault));
            line += Breaks(parser.RawRecord);
            isBad = false;
        }
        return rows;
    }

    /// <summary>The one of comma and semicolon that stands more often outside quotation marks in the header.</summary>
    private static char Delimiter(string text)
    {
        var (commas, semicolons, quoted) = (0, 0, false);
        foreach (var c in text.AsSpan(0, LengthOfLine(text)))
        {
            quoted ^= c == '"';
            commas += c == ',' && !quoted ? 1 : 0;
            semicolons += c == ';' && !quoted ? 1 : 0;
        }
        return semicolons > commas ? ';' : ',';
    }

    private static int LengthOfLine(string text)
    {
        var end = text.AsSpan().IndexOfAny('\r', '\n');
        if (end < 0)
            return text.Length;
        return text[end] == '\r' && end + 1 < text.Length && text[end + 1] == '\n' ? end + 2 : end + 1;
    }

    private static bool HasOpenQuote(string raw) => raw.AsSpan().Count('"') % 2 != 0;

    private static int Breaks(string raw)
    {
        var breaks = 0;
        for (var i = 0; i < raw.Length; i++)
            breaks += raw[i] == '\n' || (raw[i] == '\r' && (i + 1 == raw.Length || raw[i + 1] != '\n')) ? 1 : 0;
        return breaks;
    }
}
