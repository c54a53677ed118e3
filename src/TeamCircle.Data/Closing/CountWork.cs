using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>One line of a learner's count, with how it was worked out.</summary>
/// <param name="Index">Its place in <see cref="CommitmentFacts.Lines"/>.</param>
public sealed record CountLine(int Index, CommitmentLine Line, Working Working)
{
    public Balance Balance => Working.Balance;
}

/// <summary>One learner's count for one reporting period, as the rows stand inside an open transaction.</summary>
/// <param name="Lines">Those that run in the period, or of which a window closes in it or is open at its end: services in the order they came, then the goals.</param>
internal sealed record CountWork(int LearnerId, PeriodRow Period, CommitmentFacts Facts, Judging At, AuditNames Names, IReadOnlyList<CountLine> Lines)
{
    public AgencyRules Rules => Facts.Rules;

    public LocalDate AsOf => Day.Date(At.AsOf);

    /// <summary>The days that bear on the count: the period's, and those of the weeks and months that close in it.</summary>
    /// <remarks>A plan year bears on every count of the year; its own days would hold the whole year fast.</remarks>
    public DateRange Days => Lines.Where(l => l.Line.Promise.Every.Unit is EveryUnit.Week or EveryUnit.Month)
        .SelectMany(l => l.Working.Closing.Select(w => w.Window.Days))
        .Aggregate(At.Period, (all, days) => new(Math.Min(all.First, days.First), Math.Max(all.Last, days.Last)));

    /// <summary>Null where the transaction reaches no such learner, or the agency has no such period.</summary>
    public static async Task<CountWork?> ReadAsync(PortalDb db, int agency, int learner, int period, LocalDate asOf, CancellationToken stop)
    {
        if (!await db.Learners.AnyAsync(l => l.AgencyId == agency && l.Id == learner, stop))
            return null;
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        if (rules.Periods.SingleOrDefault(p => p.Id == period) is not { } row)
            return null;
        var read = new ReadFacts(db, new(agency, [learner]), rules, Day.Of(asOf));
        var names = AuditNames.Read(read.Also, read.Rows);
        var facts = await read.RunAsync(stop);
        var at = new Judging(DateRange.Of(row.StartDay, row.EndDay), Day.Of(asOf), rules.Policies);
        var lines = facts.ByLearner.Of(learner).ToArray().Select(line => new CountLine(line, facts.Lines[line], Ledger.Explain(facts.Of(line, at), at)))
            .Where(l => l.Line.Promise.Dates.Touches(at.Period) || l.Working.Closing.Count + l.Working.Open.Count > 0);
        return new(learner, row, facts, at, names, [.. lines]);
    }

    /// <summary>A line's inputs as a case that <c>workout</c> answers.</summary>
    /// <remarks>Left out is what changes no figure: make-ups that name a day in no window, and what else is taken of the learner's days, since no day
    /// of a period that is over is left to plan on.</remarks>
    public CommitmentCase Case(CountLine line) => new()
    {
        Calendar = Rules.Calendar,
        Periods = [.. Rules.Periods.Select(p => DateRange.Of(p.StartDay, p.EndDay))],
        Period = At.Period,
        Plan = line.Line.Plan,
        Promise = line.Line.Promise,
        Policy = Rules.Policies.First,
        LaterPolicies = [.. Rules.Policies.Dated.GroupBy(p => p.From).Select(same => same.Last())],
        Given = [.. Facts.Given(line.Index).ToArray().Where(e => NamesSomething(line, e))],
        Planned = [.. Facts.Planned(line.Index).ToArray().Where(e => NamesSomething(line, e))],
        Decisions = Facts.Decisions(line.Index).ToArray(),
        BroughtForward = Facts.Debts(line.Index).ToArray(),
        OtherBusy = [],
        AsOf = At.AsOf,
        DailyLimit = line.Line.DailyLimit,
    };

    /// <summary>What is sealed of each line.</summary>
    /// <exception cref="InvalidOperationException">A line's inputs do not come to the answer that the pages show: it must not be sealed.</exception>
    public IReadOnlyList<SealedLine> Seal() => [.. Lines.Select((line, position) =>
    {
        var inputs = CanonicalJson.Write(json => CommitmentCaseJson.Write(json, Case(line)));
        var answer = SealedFigures.Answer(inputs);
        if (answer != CanonicalJson.Write(json => CommitmentAnswer.Write(json, line.Working)))
            throw new InvalidOperationException($"The inputs of line {line.Line.Code} do not come to its answer.");
        return new SealedLine(position, line.Line.IsProbes ? null : line.Line.Id, line.Line.IsProbes ? line.Line.Id : null, line.Line.OwnerId, inputs, answer);
    })];

    /// <summary>The rows behind each line, in the order of <see cref="Lines"/>; what was given as it stands in the inputs, one for one.</summary>
    public async Task<IReadOnlyList<LedgerLine>> DetailsAsync(PortalDb db, CancellationToken stop)
    {
        var (read, details) = (new ReadLedgerFacts(db, Facts, At), new List<LedgerLine>());
        foreach (var line in Lines)
        {
            var rows = await read.RunAsync(line.Index, stop);
            var given = Facts.Given(line.Index).ToArray();
            details.Add(rows with { Given = [.. rows.Given.Where((_, i) => NamesSomething(line, given[i]))] });
        }
        return details;
    }

    /// <summary>False for a make-up that names a day in no window and nothing brought by file: it is in no sum.</summary>
    private bool NamesSomething(CountLine line, Entry entry)
    {
        if (entry.Pays == Day.None || line.Line.Windows.Find(entry.Pays) >= 0)
            return true;
        foreach (var debt in Facts.Debts(line.Index))
        {
            if (debt.IsFromFile && debt.Day == entry.Pays && entry.Day > debt.Since)
                return true;
        }
        return false;
    }
}
