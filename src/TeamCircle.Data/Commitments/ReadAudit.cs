using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads the audit of a reporting period: of a whole agency, or of the learners that a person may see.</summary>
/// <remarks>One short repeatable-read transaction, and for a whole agency a second one on its snapshot, closed before anything is judged; rows come
/// by COPY on worker threads.</remarks>
public sealed class ReadAudit(Portal portal, StandbyReads standby)
{
    // So many audits at once hold a second connection, and the others read over one: if each of many held one and waited for another, none would end.
    private static readonly SemaphoreSlim Seconds = new(8);

    private sealed record Rows(CommitmentFacts Facts, PeriodRow Period, AuditNames Names, Checks Checks, List<AuditAward> Awards)
    {
        public Instant? HeldUntil { get; init; }
    }

    private sealed record Checks(List<RefusedRows> Refused, int SetAside, IReadOnlyList<OpenAway> Away, VisitChecks Visits);

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
        var (lines, providers) = JudgeAll.Run(rows.Facts, at);
        return new(rows.Facts, at, rows.Period, rows.Names)
        {
            Lines = lines,
            Awards = rows.Awards,
            HeldUntil = rows.HeldUntil,
            Providers = [.. providers.OrderBy(p => rows.Names.Person(p.PersonId), StringComparer.CurrentCulture)],
            Checks = new(AuditChecks.Of(lines, rows.Facts.Otherwise), rows.Checks.Refused, rows.Checks.SetAside) { Away = rows.Checks.Away, Visits = rows.Checks.Visits },
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
        var isSecond = scope.Wall != Wall.Person && await Seconds.WaitAsync(0, stop);
        try
        {
            await using var beside = isSecond ? await from.OpenBesideAsync(work, scope, stop) : null;
            var rows = await ReadRowsAsync(work, beside, scope, rules, row, asOf, stop);
            await work.CommitAsync(stop);
            return rows with { HeldUntil = held };
        }
        finally
        {
            if (isSecond)
                Seconds.Release();
        }
    }

    private static async Task<Rows> ReadRowsAsync(
        PortalWork work, PortalWork? beside, Scope scope, AgencyRules rules, PeriodRow row, LocalDate asOf, CancellationToken stop)
    {
        var (filter, period) = (RowFilter.Of(scope), DateRange.Of(row.StartDay, row.EndDay));
        var asked = new ReadVisitChecks.Asked(scope.AgencyId, row.StartDay, row.EndDay, asOf, Provider: null);
        if (filter.Learners is not null)
            return await ReadFewAsync(work, filter, rules, row, asked, stop);
        var (checks, names) = await ReadBesideAsync(work, beside, asked, stop);
        var (facts, awards) = await Task.Run(() =>
        {
            var read = new ReadAgencyFacts(work.Connection, beside?.Connection, filter, rules, Day.Of(asOf), period).Run();
            return (read, AuditAwards.Read(new OneByOne(work.Connection), filter, Day.Of(asOf)).Beside(read));
        }, stop);
        return new(facts, row, names, checks, awards);
    }

    /// <summary>Of some learners only, by one statement.</summary>
    private static async Task<Rows> ReadFewAsync(
        PortalWork work, RowFilter filter, AgencyRules rules, PeriodRow row, ReadVisitChecks.Asked asked, CancellationToken stop)
    {
        var (asOf, period) = (Day.Of(asked.Today), DateRange.Of(row.StartDay, row.EndDay));
        var read = new ReadFacts(work.Db, filter, rules, asOf, period with { Last = Math.Min(period.Last, asOf) });
        var names = AuditNames.Read(read.Also, read.Rows);
        var awards = AuditAwards.Read(read.Also, read.Rows, asOf);
        var facts = await read.RunAsync(stop);
        return new(facts, row, names, await ReadChecksAsync(work.Db, asked, stop), awards.Beside(facts));
    }

    /// <summary>What is checked outside the lines, and meanwhile all names where there is a second connection for them.</summary>
    private static async Task<(Checks, AuditNames)> ReadBesideAsync(PortalWork work, PortalWork? beside, ReadVisitChecks.Asked asked, CancellationToken stop)
    {
        Task<AuditNames> NamesAsync(PortalWork from) => Task.Run(() => AuditNames.Read(new OneByOne(from.Connection), new(asked.Agency, null)), CancellationToken.None);
        if (beside is null)
            return (await ReadChecksAsync(work.Db, asked, stop), await NamesAsync(work));
        var (checks, names) = (ReadChecksAsync(work.Db, asked, stop), NamesAsync(beside));
        await Task.WhenAll(checks, names); // both, whichever fails: their connections are closed afterwards
        return (await checks, await names);
    }

    private static async Task<Checks> ReadChecksAsync(PortalDb db, ReadVisitChecks.Asked asked, CancellationToken stop) => new(
        await ReadChecks.RefusedAsync(db, asked.Agency, stop),
        await ReadChecks.SetAsideAsync(db, asked.Agency, stop),
        await ReadAways.OpenAsync(db, asked.Agency, asked.Today, stop),
        await ReadVisitChecks.RunAsync(db, asked, stop));
}
