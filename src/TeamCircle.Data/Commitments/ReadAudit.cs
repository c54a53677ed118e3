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
    private sealed record Rows(
        CommitmentFacts Facts, PeriodRow Period, AuditNames Names, GivenOtherwise Otherwise, List<RefusedRows> Refused, int SetAside);

    /// <summary>All reporting periods, oldest first.</summary>
    public Task<List<PeriodRow>> PeriodsAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(
        scope, db => db.Periods.Where(p => p.AgencyId == scope.AgencyId).OrderBy(p => p.StartDay).ToListAsync(stop), stop);

    /// <param name="period">The period's number; null where the agency has no such period.</param>
    public async Task<Audit?> RunAsync(Scope scope, int period, LocalDate asOf, CancellationToken stop = default)
    {
        if (await ReadRowsAsync(scope, period, asOf, stop) is not { } rows)
            return null;
        var at = new Judging(DateRange.Of(rows.Period.StartDay, rows.Period.EndDay), Day.Of(asOf), rows.Facts.Rules.Policies);
        return await Task.Run(() => Judge(rows, at), stop);
    }

    private static Audit Judge(Rows rows, Judging at)
    {
        var (lines, providers) = new JudgeAll(rows.Facts, at).Run();
        return new(rows.Facts, at, rows.Period, rows.Names)
        {
            Lines = lines,
            Providers = [.. providers.OrderBy(p => rows.Names.Person(p.PersonId), StringComparer.CurrentCulture)],
            Checks = new(AuditChecks.Of(lines, rows.Otherwise.Checks), rows.Refused, rows.SetAside),
        };
    }

    private async Task<Rows?> ReadRowsAsync(Scope scope, int number, LocalDate asOf, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        work.Db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        var rules = await AgencyRules.ReadAsync(work.Db, scope.AgencyId, stop);
        if (rules.Periods.SingleOrDefault(p => p.Id == number) is not { } row)
            return null;
        var names = await AuditNames.ReadAsync(work.Db, scope.AgencyId, stop);
        var refused = await ReadChecks.RefusedAsync(work.Db, scope.AgencyId, stop);
        var setAside = await ReadChecks.SetAsideAsync(work.Db, scope.AgencyId, stop);
        var filter = RowFilter.Of(scope);
        var period = DateRange.Of(row.StartDay, row.EndDay);
        var otherwise = new GivenOtherwise(period with { Last = Math.Min(period.Last, Day.Of(asOf)) });
        var facts = await Task.Run(
            () => filter.Learners is null
                ? new ReadAgencyFacts(work.Connection, filter, rules, Day.Of(asOf), period, otherwise).Run()
                : new ReadFacts(work.Connection, filter, rules, Day.Of(asOf), otherwise).Run(),
            stop);
        await work.CommitAsync(stop);
        return new(facts, row, names, otherwise, refused, setAside);
    }
}
