using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>What one line comes to in one reporting period, as far as calendar and policy bear on it.</summary>
internal readonly record struct LineStanding(Status Status, int Owed, int SessionsOwed, int OpenOwed);

/// <summary>Every line in every reporting period, as the rows stand inside an open transaction: for comparing before and after a change.</summary>
internal sealed class AllStandings
{
    private readonly LineStanding[][] _standings;

    private AllStandings(IReadOnlyList<CommitmentLine> lines, IReadOnlyList<PeriodRow> periods, LineStanding[][] standings) =>
        (Lines, Periods, _standings) = (lines, periods, standings);

    public IReadOnlyList<CommitmentLine> Lines { get; }
    public IReadOnlyList<PeriodRow> Periods { get; }

    public LineStanding Of(int period, int line) => _standings[period][line];

    public static async Task<AllStandings> ReadAsync(PortalDb db, RowFilter rows, LocalDate asOf, CancellationToken stop)
    {
        db.ChangeTracker.Clear(); // rows as they are now, not as they were read before
        var rules = await AgencyRules.ReadAsync(db, rows.Agency, stop);
        var facts = await new ReadFacts(db, rows, rules, Day.Of(asOf)).RunAsync(stop);
        return await Task.Run(() => new AllStandings(facts.Lines, rules.Periods, [.. rules.Periods.Select(p => Judge(facts, p, asOf))]), stop);
    }

    private static LineStanding[] Judge(CommitmentFacts facts, PeriodRow period, LocalDate asOf)
    {
        var at = new Judging(DateRange.Of(period.StartDay, period.EndDay), Day.Of(asOf), facts.Rules.Policies);
        var desk = new LedgerDesk();
        var standings = new LineStanding[facts.Lines.Count];
        foreach (var line in facts.ByLearner.All)
        {
            var balance = Ledger.Judge(facts.Of(line, at), at, desk);
            standings[line] = new(balance.Status, balance.Minutes.Owed, balance.Sessions.Owed, balance.Open.Owed);
        }
        return standings;
    }
}
