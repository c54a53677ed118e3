using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>Something brought forward, with its account as of a day.</summary>
/// <param name="Line">The service or probe commitment.</param>
/// <param name="Working">The line as of the day; its entries given are those that payments name.</param>
/// <param name="Decisions">All of them, also those taken back; as they were recorded.</param>
public sealed record DebtOnRecord(
    DebtRow Row, CommitmentLine Line, Working Working, DebtAccount Account, IReadOnlyList<DebtDecisionRow> Decisions)
{
    /// <summary>The window; null for a debt brought by file.</summary>
    public DateRange? Window => Row.PeriodId is not null && Line.Windows.Find(Day.Of(Row.OnDay)) is >= 0 and var window
        ? Line.Windows.All[window].Days : null;
}

/// <summary>Works the account of everything that was brought forward.</summary>
internal static class LearnerDebts
{
    /// <summary>By service as they came, then by goal; of each the oldest first.</summary>
    /// <param name="at">The as-of day counts; the period makes no difference.</param>
    /// <param name="isAsked">For which lines; null for all.</param>
    public static async Task<IReadOnlyList<DebtOnRecord>> ReadAsync(
        PortalDb db, CommitmentFacts facts, Judging at, Func<CommitmentLine, bool>? isAsked, CancellationToken stop)
    {
        var lines = Enumerable.Range(0, facts.Lines.Count)
            .Where(i => facts.DebtIds(i).Length > 0 && isAsked?.Invoke(facts.Lines[i]) != false).ToList();
        if (lines.Count == 0)
            return [];
        int[] ids = [.. lines.SelectMany(i => facts.DebtIds(i).ToArray())];
        var agency = facts.Rules.Agency.Id;
        var rows = await db.Debts.AsNoTracking().Where(d => d.AgencyId == agency && ids.Contains(d.Id)).ToDictionaryAsync(d => d.Id, stop);
        var decisions = (await db.DebtDecisions.AsNoTracking().Where(d => d.AgencyId == agency && ids.Contains(d.DebtId))
            .OrderBy(d => d.Id).ToListAsync(stop)).ToLookup(d => d.DebtId);
        return [.. lines.SelectMany(i => Of(facts, i, at, rows, decisions))];
    }

    private static List<DebtOnRecord> Of(
        CommitmentFacts facts, int line, in Judging at, Dictionary<int, DebtRow> rows, ILookup<int, DebtDecisionRow> decisions)
    {
        var working = Ledger.Explain(facts.Of(line, at), at);
        var asOf = Day.Date(at.AsOf);
        var found = new List<DebtOnRecord>();
        foreach (var (index, id) in facts.DebtIds(line).ToArray().Index())
        {
            var opened = rows[id].Opened;
            var account = DebtAccount.Of(opened, DebtAccount.PaymentsOf(working, index, opened.PaidBefore),
                decisions[id].Where(d => d.Live && d.DecidedOn <= asOf).Select(d => d.Decision));
            found.Add(new(rows[id], facts.Lines[line], working, account, [.. decisions[id]]));
        }
        return found;
    }
}
