using System.Data;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads the audit of a reporting period: of a whole agency, or of the learners that a person may see.</summary>
/// <remarks>One short repeatable-read transaction, closed before anything is judged; rows come by COPY on a worker thread.</remarks>
public sealed class ReadAudit(Portal portal, StandbyReads standby)
{
    private sealed record Rows(
        CommitmentFacts Facts, PeriodRow Period, AuditNames Names, List<RefusedRows> Refused, int SetAside, IReadOnlyList<OpenAway> Away,
        VisitChecks Visits, List<AuditAward> Awards)
    {
        public Instant? HeldUntil { get; init; }
    }

    /// <summary>All reporting periods, oldest first.</summary>
    public Task<List<PeriodRow>> PeriodsAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(
        scope, db => db.Periods.Where(p => p.AgencyId == scope.AgencyId).OrderBy(p => p.StartDay).ToListAsync(stop), stop);

    /// <param name="period">The period's number; null where the agency has no such period.</param>
    public Task<Audit?> RunAsync(Scope scope, int period, LocalDate asOf, CancellationToken stop = default) => RunAsync(portal, scope, period, asOf, stop);

    /// <summary>The same from a standby, where the installation has one; the audit says how far that was.</summary>
    /// <inheritdoc cref="RunAsync(Scope, int, LocalDate, CancellationToken)"/>
    public Task<Audit?> FromStandbyAsync(Scope scope, int period, LocalDate asOf, CancellationToken stop = default) => RunAsync(standby.Portal, scope, period, asOf, stop);

    private async Task<Audit?> RunAsync(Portal from, Scope scope, int period, LocalDate asOf, CancellationToken stop)
    {
        if (await ReadRowsAsync(from, scope, period, asOf, stop) is not { } rows)
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
            Awards = rows.Awards,
            HeldUntil = rows.HeldUntil,
            Providers = [.. providers.OrderBy(p => rows.Names.Person(p.PersonId), StringComparer.CurrentCulture)],
            Checks = new(AuditChecks.Of(lines, rows.Facts.Otherwise), rows.Refused, rows.SetAside) { Away = rows.Away, Visits = rows.Visits },
        };
    }

    private async Task<Rows?> ReadRowsAsync(Portal from, Scope scope, int number, LocalDate asOf, CancellationToken stop)
    {
        await using var work = await from.OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        work.Db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        var held = ReferenceEquals(from, portal) ? null : await StandbyReads.HeldUntilAsync(work.Db, stop);
        var rules = await AgencyRules.ReadAsync(work.Db, scope.AgencyId, stop);
        if (rules.Periods.SingleOrDefault(p => p.Id == number) is not { } row)
            return null;
        var refused = await ReadChecks.RefusedAsync(work.Db, scope.AgencyId, stop);
        var setAside = await ReadChecks.SetAsideAsync(work.Db, scope.AgencyId, stop);
        var away = await ReadAways.OpenAsync(work.Db, scope.AgencyId, asOf, stop);
        var visits = await ReadVisitChecks.RunAsync(work.Db, new(scope.AgencyId, row.StartDay, row.EndDay, asOf, Provider: null), stop);
        var (names, facts) = await Task.Run(() => (
            AuditNames.Read(work.Connection, scope.AgencyId),
            ReadFacts(work.Connection, RowFilter.Of(scope), rules, Day.Of(asOf), DateRange.Of(row.StartDay, row.EndDay))), stop);
        var awards = await Task.Run(() => AuditAwards.Read(work.Connection, RowFilter.Of(scope), facts, Day.Of(asOf)), stop);
        await work.CommitAsync(stop);
        return new(facts, row, names, refused, setAside, away, visits, awards) { HeldUntil = held };
    }

    private static CommitmentFacts ReadFacts(NpgsqlConnection connection, RowFilter filter, AgencyRules rules, int asOf, DateRange period) =>
        filter.Learners is null
            ? new ReadAgencyFacts(connection, filter, rules, asOf, period).Run()
            : new ReadFacts(connection, filter, rules, asOf, period with { Last = Math.Min(period.Last, asOf) }).Run();
}
