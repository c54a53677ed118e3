using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads the audit of a reporting period: of a whole agency, or of the learners that a person may see.</summary>
/// <remarks>One short repeatable-read transaction, closed before anything is judged; rows come by COPY on a worker thread.</remarks>
public sealed class ReadAudit(Portal portal)
{
    /// <summary>All reporting periods, oldest first.</summary>
    public Task<List<PeriodRow>> PeriodsAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(
        scope, db => db.Periods.Where(p => p.AgencyId == scope.AgencyId).OrderBy(p => p.StartDay).ToListAsync(stop), stop);

    /// <param name="period">The period's number; null where the agency has no such period.</param>
    public async Task<Audit?> RunAsync(Scope scope, int period, LocalDate asOf, CancellationToken stop = default)
    {
        var read = await ReadRowsAsync(scope, period, asOf, stop);
        if (read is not var (facts, row, names))
            return null;
        var at = new Judging(DateRange.Of(row.StartDay, row.EndDay), Day.Of(asOf), facts.Rules.Policies);
        var (lines, providers) = await Task.Run(() => new JudgeAll(facts, at).Run(), stop);
        return new(facts.Rules, row, asOf, lines, providers, names);
    }

    private async Task<(CommitmentFacts Facts, PeriodRow Period, AuditNames Names)?> ReadRowsAsync(
        Scope scope, int period, LocalDate asOf, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        work.Db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        var rules = await AgencyRules.ReadAsync(work.Db, scope.AgencyId, stop);
        if (rules.Periods.SingleOrDefault(p => p.Id == period) is not { } row)
            return null;
        var names = await ReadNamesAsync(work.Db, scope.AgencyId, stop);
        var facts = await Task.Run(() => new ReadFacts(work.Connection, RowFilter.Of(scope), rules, Day.Of(asOf)).Run(), stop);
        await work.CommitAsync(stop);
        return (facts, row, names);
    }

    private static async Task<AuditNames> ReadNamesAsync(PortalDb db, int agency, CancellationToken stop) => new(
        await db.People.Where(p => p.AgencyId == agency).Select(p => new PersonName(p.Id, p.Email, p.Name)).ToDictionaryAsync(p => p.Id, stop),
        await db.Learners.Where(l => l.AgencyId == agency).Select(l => new LearnerName(l.Id, l.Code, l.Name)).ToDictionaryAsync(l => l.Id, stop));
}
