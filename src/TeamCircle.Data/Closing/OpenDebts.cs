using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>Brings forward what lacks when a learner's count is sealed, in the transaction that seals it.</summary>
internal static class OpenDebts
{
    /// <summary>Takes back what an earlier edition brought forward: before the count is worked out anew, and when it is opened again.</summary>
    public static Task WithdrawAsync(PortalDb db, int agency, int learner, int period, CancellationToken stop) => db.Debts
        .Where(d => d.AgencyId == agency && d.LearnerId == learner && d.PeriodId == period && d.Live)
        .ExecuteUpdateAsync(d => d.SetProperty(r => r.Live, false), stop);

    /// <summary>Adds the debts of the sealed lines; the caller saves. A window that had one keeps its row, with the decisions about it.</summary>
    /// <param name="lines">All lines of the learner, judged in this period as of the day of the closing.</param>
    public static async Task RunAsync(PortalDb db, PeriodRow period, int learner, IEnumerable<LedgerLine> lines, CancellationToken stop)
    {
        var known = await db.Debts.Where(d => d.AgencyId == period.AgencyId && d.LearnerId == learner && d.PeriodId == period.Id).ToListAsync(stop);
        foreach (var line in lines)
        {
            int? service = line.Line.IsProbes ? null : line.Line.Id;
            int? goal = line.Line.IsProbes ? line.Line.Id : null;
            foreach (var debt in Debts.Of(line.Working, [.. line.Decisions.Select(d => d.ByDay)]))
            {
                var row = known.Find(d => d.ServiceId == service && d.GoalId == goal && d.OwnerId == line.Line.OwnerId && d.OnDay == debt.Day);
                if (row is null)
                    db.Add(row = new() { AgencyId = period.AgencyId, LearnerId = learner, ServiceId = service, GoalId = goal, OwnerId = line.Line.OwnerId, PeriodId = period.Id, OnDay = debt.Day });
                row.Since = period.EndDay;
                row.Take(debt);
            }
        }
    }
}
