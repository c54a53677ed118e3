using System.IO.Compression;
using System.Text;
using NodaTime.Text;
using TeamCircle.Core;
using TeamCircle.Core.Import;
using TeamCircle.Core.Moves;
using TeamCircle.Data.Import;

namespace TeamCircle.Data.Moves;

/// <summary>A file for a receiving agency as tables: comma-separated values by RFC 4180 in one ZIP archive, and all of it as JSON. No name stands in a file's name.</summary>
public static class TransferSheets
{
    public static void Write(Stream output, TransferFile file)
    {
        using var archive = new ZipArchive(output, ZipArchiveMode.Create, leaveOpen: true);
        var content = file.Content;
        Add(archive, file, "services", ["Code", "Service", "As written", "Minutes", "Sessions", "Each", "Place", "From", "To", "Given by"], content.Services.Select(s => new object?[]
        {
            s.Code, Words.Of(s.Discipline), s.AsWritten, s.Minutes, s.Sessions, $"{s.EveryCount} {Words.Of(s.EveryUnit)}", Words.Of(s.Place), Day(s.From), Day(s.To), string.Join("; ", s.Givers),
        }));
        Add(archive, file, "minutes", ["Reporting period", "Code", "Service", "Due", "Given", "Not given", "Open: due in all", "Open: given"],
            content.Balances.Select(b => new object?[] { b.Period, b.Code, Words.Of(b.Discipline), b.Due, b.Given, b.Lacking, b.OpenOwed, b.OpenGiven }));
        Add(archive, file, "brought-forward", ["Code", "Day", "Open", "Sessions", "Unit"],
            content.BroughtForward.Select(d => new object?[] { d.Code, Day(d.On), d.Open, d.Sessions, d.IsProbes ? "probes" : "minutes" }));
        Add(archive, file, "compensatory", ["Paper", "Service", "Awarded", "Given", "Unit", "From", "Until"],
            content.Awards.Select(a => new object?[] { a.Paper, Words.Of(a.Discipline), a.Amount, a.Given, a.InSessions ? "sessions" : "minutes", Day(a.From), a.Until is { } until ? Day(until) : null }));
        Add(archive, file, "goals", ["Area", "Goal", "Measure", "Baseline", "Target", "By", "Present level", "Last probed"], content.Goals.Select(g => new object?[]
        {
            g.Area, g.Statement, Words.Of(g.Measure), g.Baseline, g.Target, g.TargetDay is { } by ? Day(by) : null, g.Now, g.NowOn is { } on ? Day(on) : null,
        }));
        Add(archive, file, "how-we-teach", ["Part", "Words", "Written on", "By"], content.Teaching.Select(t => new object?[] { Words.Of(t.Part), t.Words, Day(t.WrittenOn), t.WrittenBy }));
        using var json = Entry(archive, file, "file.json").Open();
        json.Write(Encoding.UTF8.GetBytes(content.Write()));
    }

    private static void Add(ZipArchive archive, TransferFile file, string name, string[] heads, IEnumerable<object?[]> rows)
    {
        using var entry = Entry(archive, file, $"{name}.csv").Open();
        // With a byte-order mark, without which spreadsheets take UTF-8 for something else.
        using var text = new StreamWriter(entry, new UTF8Encoding(true));
        CsvSheet.Write(text, heads, rows.Select(row => row.Select(cell => cell is string words ? SpreadsheetCell.Safe(words) : cell)));
    }

    /// <summary>The archive's own dates are those of the making, so that the same file is the same bytes.</summary>
    private static ZipArchiveEntry Entry(ZipArchive archive, TransferFile file, string name)
    {
        var entry = archive.CreateEntry(name);
        entry.LastWriteTime = new DateTimeOffset(file.MadeAt.ToDateTimeUnspecified(), TimeSpan.Zero);
        return entry;
    }

    private static string Day(LocalDate day) => LocalDatePattern.Iso.Format(day);
}
