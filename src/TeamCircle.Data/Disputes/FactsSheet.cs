using System.Globalization;
using CsvHelper;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Import;

namespace TeamCircle.Data.Disputes;

/// <summary>The facts in order as a sheet: a row for each thing that happened, all of the span. A text that would run is marked as text.</summary>
public static class FactsSheet
{
    private static readonly string[] Heads =
    [
        "Day", "Visit", "Service", "What", "At", "Who", "Words", "Reason", "Entered minutes after the end", "Minutes before", "Road before", "Minutes after", "Road after", "Under a hold",
    ];

    /// <summary>Writes comma-separated values by RFC 4180.</summary>
    public static void WriteCsv(TextWriter output, FactsInOrder facts)
    {
        using var csv = new CsvWriter(output, CultureInfo.InvariantCulture, leaveOpen: true);
        Write(csv, Heads);
        foreach (var day in facts.Days)
        {
            foreach (var around in day.Around)
                Write(csv, [Day(day.On), "", "", Core.Words.Of(around.Kind), At(facts, around.At), By(facts, around.By), Words(facts, around)]);
            foreach (var visit in day.Visits)
            {
                foreach (var happened in visit.Story)
                    Write(csv, Cells(facts, day, visit, happened));
                foreach (var word in visit.Family)
                    Write(csv, [Day(day.On), $"{visit.Id}", visit.Service, word.IsStatement ? "statement" : "family", At(facts, word.At), By(facts, word.EnteredBy), $"{word.SaidBy}: {word.Words}"]);
            }
        }
    }

    /// <summary>The words of what bears on a day.</summary>
    public static string Words(FactsInOrder facts, FactAround around) => around.Decision?.Words(facts.Name) ?? around.Words;

    private static object?[] Cells(FactsInOrder facts, FactsDay day, FactsVisit visit, StoryEvent happened) =>
    [
        Day(day.On), $"{visit.Id}", visit.Service, Core.Words.Of(happened.Act), At(facts, happened.At), By(facts, happened.By), StoryWords.Of(happened, facts.Name), happened.Why,
        happened.Delay is { } delay ? (long)delay.TotalMinutes : null, visit.Travel?.GapBefore, visit.Travel?.RoadBefore, visit.Travel?.GapAfter, visit.Travel?.RoadAfter,
        visit.UnderHold && happened.Act is StoryAct.Entered ? "yes" : null,
    ];

    private static void Write(CsvWriter csv, IEnumerable<object?> cells)
    {
        foreach (var cell in cells)
            csv.WriteField(cell is string text ? SpreadsheetCell.Safe(text) : cell);
        csv.NextRecord();
    }

    private static string Day(LocalDate day) => NodaTime.Text.LocalDatePattern.Iso.Format(day);

    private static string At(FactsInOrder facts, Instant at) => at.InZone(facts.Zone).ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string By(FactsInOrder facts, int? person) => person is { } id ? facts.Name(id) : "";
}
