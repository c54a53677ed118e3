using System.Globalization;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Import;
using TeamCircle.Data.Import;

namespace TeamCircle.Data.Commitments;

/// <summary>An audit as a sheet: a head, then a row for each line. The same cells go into every kind of file.</summary>
/// <remarks>Numbers are cells of numbers; a text that a spreadsheet would take for a formula is marked as text.</remarks>
public static class AuditSheet
{
    private sealed record Column(string Head, Func<Audit, AuditLine, object?> Cell);

    private static readonly Column[] Columns =
    [
        new("Learner", (a, l) => a.Names.Learners[l.Line.LearnerId].Code),
        new("Name", (a, l) => a.Names.Learners[l.Line.LearnerId].Name),
        new("Service or goal", (_, l) => l.Line.Code),
        new("Kind", (_, l) => l.Line.Service is { } service ? Core.Words.Of(service.Discipline) : $"probes, {l.Line.Area}"),
        new("Provider", (a, l) => a.ProviderEmails(l.Line)),
        new("Unit", (_, l) => l.Line.IsProbes ? "probes" : "minutes"),
        new("Due so far", (_, l) => l.Balance.Minutes.DueSoFar),
        new("Given so far", (_, l) => l.Balance.Minutes.GivenSoFar),
        new("Planned to come", (_, l) => l.Balance.Minutes.PlannedToCome),
        new("Still to plan", (_, l) => l.Balance.Minutes.StillToPlan),
        new("Owed", (_, l) => l.Balance.Minutes.Owed),
        new("Decided not owed", (_, l) => l.Balance.Minutes.NotOwed),
        new("Due", (_, l) => l.Balance.Minutes.Due),
        new("Given", (_, l) => l.Balance.Minutes.Given),
        new("Lacking", (_, l) => l.Balance.Minutes.Lack),
        new("Lacking so far", (_, l) => l.Balance.Minutes.LackSoFar),
        new("Undecided", (_, l) => l.Balance.Minutes.Undecided),
        new("Sessions due", (_, l) => Sessions(l, s => s.Due)),
        new("Sessions given", (_, l) => Sessions(l, s => s.Given)),
        new("Sessions lacking", (_, l) => Sessions(l, s => s.Lack)),
        new("Sessions undecided", (_, l) => Sessions(l, s => s.Undecided)),
        new("Open: owed", (_, l) => l.Balance.Open.Owed),
        new("Open: pace", (_, l) => l.Balance.Open.Pace),
        new("Open: given", (_, l) => l.Balance.Open.Given),
        new("Made up since", (_, l) => l.Balance.MadeUpSince),
        new("Brought forward: open", (_, l) => l.Balance.BroughtForward.Open.Minutes),
        new("Brought forward: made up", (_, l) => l.Balance.BroughtForward.Paid.Minutes),
        new("Brought forward: sessions open", (_, l) => l.Balance.HasSessions ? l.Balance.BroughtForward.Open.Sessions : null),
        new("Compensatory: awarded", (a, l) => Awards(a, l, w => w.Awarded)),
        new("Compensatory: given", (a, l) => Awards(a, l, w => w.Given)),
        new("Compensatory: left", (a, l) => Awards(a, l, w => w.Left)),
        new("Outside the dates", (_, l) => l.Balance.Outside),
        new("Space left", (_, l) => l.Balance.SpaceLeft),
        new("Status", (_, l) => StatusWords.Of(l.Balance.Status)),
    ];

    public static IReadOnlyList<string> Heads { get; } = [.. Columns.Select(c => c.Head)];

    /// <summary>The cells of a line: text, a number, or null for an empty one.</summary>
    public static IEnumerable<object?> Cells(Audit audit, AuditLine line) => Columns.Select(c => c.Cell(audit, line) switch
    {
        string text => SpreadsheetCell.Safe(text),
        var number => number,
    });

    /// <summary>Writes comma-separated values, the lines given in their order.</summary>
    public static void WriteCsv(TextWriter output, Audit audit, IEnumerable<AuditLine> lines) =>
        CsvSheet.Write(output, Heads, lines.Select(l => Cells(audit, l)));

    /// <summary>Minutes and sessions never add up to one number: 120 minutes; 3 sessions.</summary>
    private static string? Awards(Audit audit, AuditLine line, Func<AuditAward, int> pick)
    {
        var words = string.Join("; ", audit.AwardsOf(line).GroupBy(a => a.Unit).OrderBy(u => u.Key)
            .Select(u => string.Create(CultureInfo.InvariantCulture, $"{u.Sum(pick)} {(u.Key == AwardUnit.Minutes ? "minutes" : "sessions")}")));
        return words.Length == 0 ? null : words;
    }

    private static int? Sessions(AuditLine line, Func<PeriodBalance, int> pick) =>
        line.Balance.HasSessions ? pick(line.Balance.Sessions) : null;
}
