using System.Globalization;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Import;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Answers with a statement as a file: one row for each figure of a line, each window, visit and decision, each thing brought forward, and each award.</summary>
/// <param name="withNotes">Whether the words beside decisions go with it.</param>
public sealed class StatementFile(StatementPage page, SheetKind kind, bool withNotes) : SheetFile(kind)
{
    private sealed record Row(string Line, string Kind, string What, LocalDate? Day = null, int? Amount = null, int? Sessions = null, string Unit = "", string? Who = null, string? Times = null, string? Words = null, int? EnteredAfter = null);

    protected override string Name => string.Create(CultureInfo.InvariantCulture, $"statement-{page.Facts.First:uuuu-MM-dd}-edition-{page.Row.Edition}");

    protected override string Sheet => "Statement";

    protected override IReadOnlyList<string> Heads { get; } =
        ["Service or goal", "Kind", "What", "Day", "Amount", "Sessions", "Unit", "Who", "Times", "Words", "Entered days after"];

    protected override IEnumerable<IEnumerable<object?>> Rows => page.Lines.SelectMany(Of).Concat(page.Facts.Awards.Select(Award)).Select(Cells);

    private IEnumerable<Row> Of(StatementLineRead line)
    {
        var (code, title, unit) = (line.Facts.Code, StatementLineView.TitleOf(line.Facts), line.Facts.Goal is null ? "minutes" : "probes");
        foreach (var (name, amount) in line.Answer.Figures)
            yield return new(code, title, $"figure: {name}", Amount: amount, Unit: name.StartsWith("sessions", StringComparison.Ordinal) ? "sessions" : unit);
        yield return new(code, title, "status", Words: Say.Status(SealedAnswer.StatusOf(line.Answer.Status)));
        if (line.Fits)
        {
            foreach (var window in line.Ledger.Working.Closing)
                yield return new(code, title, "window: due", window.Window.Days.Start, window.Minutes.Due, null, unit, Words: $"{Say.Number(window.Minutes.Given)} given, {Say.Number(window.Minutes.Lack)} not given");
        }
        foreach (var (visit, entry) in line.Facts.Given.Zip(line.Ledger.Working.GivenEntries))
            yield return Visit(code, title, visit, entry.Entry.Amount, unit);
        foreach (var missed in line.Facts.NotGiven)
            yield return Visit(code, title, missed, 0, unit);
        foreach (var decision in line.Facts.Decisions)
            yield return Decided(code, title, decision, unit);
        foreach (var debt in line.Facts.BroughtForward)
            yield return new(code, title, "brought forward: open", debt.First ?? debt.Day, debt.Open.Minutes, debt.Open.Sessions, unit);
    }

    private static Row Visit(string code, string title, StatementVisit visit, int amount, string unit) => new(
        code, title, Say.Outcome(visit.Outcome), visit.Day, amount, null, unit, visit.Who, visit.Start is null ? null : $"{visit.Start}-{visit.End}",
        string.Join("; ", new[]
        {
            visit.Reason is { } reason ? Say.Reason(reason) : null, visit.Observed ? null : "times from the plan", visit.ByOther ? "by somebody not named for it" : null,
            visit.Corrected ? "corrected" : null,
        }.OfType<string>()), visit.EnteredAfter);

    private Row Decided(string code, string title, StatementDecision decision, string unit) => new(
        code, title, $"decision: {Say.Decision(decision.Kind)}", decision.Day, decision.Amount.Minutes, decision.Amount.Sessions, unit, StatementLineView.TookPart(decision), null,
        $"decided on {Say.Date(decision.DecidedOn)}; {(decision.FamilyToldOn is { } told ? $"family told on {Say.Date(told)}" : "the family had not been told")}{(withNotes && decision.Why is { } why ? $". {why}" : "")}");

    private static Row Award(StatementAward award) => new(
        award.Service ?? "", Core.Words.Of(award.Discipline), "compensatory services: left", award.From, award.Balance.Left, null, award.Balance.Unit == AwardUnit.Minutes ? "minutes" : "sessions",
        Words: $"{AwardWords.Balance(award.Balance)}. {award.Paper}");

    private static IEnumerable<object?> Cells(Row row) => new object?[]
    {
        row.Line, row.Kind, row.What, row.Day is { } day ? LocalDatePattern.Iso.Format(day) : null, row.Amount, row.Sessions, row.Unit, row.Who, row.Times, row.Words, row.EnteredAfter,
    }.Select(cell => cell is string text ? SpreadsheetCell.Safe(text) : cell);
}
