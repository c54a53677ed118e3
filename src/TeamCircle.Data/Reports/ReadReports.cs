using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;

namespace TeamCircle.Data.Reports;

/// <summary>Reads which reports a learner has, and what waits for a person.</summary>
public sealed class ReadReports(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<ReportsPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.SingleOrDefaultAsync(l => l.AgencyId == caller.AgencyId && l.Id == learner, stop) is not { } row)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var periods = await db.Periods.Where(p => p.AgencyId == caller.AgencyId && p.StartDay <= caller.Today).OrderByDescending(p => p.StartDay).ToListAsync(stop);
        var reports = (await db.Reports.IgnoreQueryFilters().Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner).OrderByDescending(r => r.Edition).ToListAsync(stop))
            .ToLookup(r => r.PeriodId);
        ReportListed Listed(ReportRow r) => new(r.Id, r.Edition, r.State, r.FinishedAt?.InZone(zone).LocalDateTime, r.SharedAt?.InZone(zone).LocalDateTime, r.TakenBackReason);
        return new ReportsPage(learner, row.Name, [.. periods.Select(p => new ReportPeriod(
            p.Id, p.Name, p.StartDay, p.EndDay, reports[p.Id].Where(r => r.Live).Select(Listed).FirstOrDefault(), [.. reports[p.Id].Where(r => !r.Live).Select(Listed)]))],
            ReportRules.MayBegin(caller, learner));
    }, stop);

    /// <summary>The shared reports of a child, the latest first.</summary>
    internal static async Task<IReadOnlyList<SharedReport>> SharedAsync(PortalDb db, int agency, int learner, CancellationToken stop) => await (
        from r in db.Reports
        join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
        where r.AgencyId == agency && r.LearnerId == learner && r.SharedAt != null
        orderby p.StartDay descending
        select new SharedReport(r.Id, p.StartDay, p.EndDay)).ToListAsync(stop);

    /// <summary>What waits for a person: paragraphs and signatures of theirs, and for owners and case managers reviews that nobody closed.</summary>
    internal static async Task<IReadOnlyList<ReportWaits>> WaitingAsync(PortalDb db, Together all, Caller caller)
    {
        var learners = caller.Learners.Where(l => ReportRules.MayBegin(caller, l)).ToList();
        var rows = await all.ListAsync(
            from g in db.ReportGoals
            join r in db.Reports on new { g.AgencyId, g.LearnerId, Id = g.ReportId } equals new { r.AgencyId, r.LearnerId, r.Id }
            join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
            where g.AgencyId == caller.AgencyId && learners.Contains(g.LearnerId)
                && (r.FinishedAt == null || (g.Status == ReportStatus.NotEnough && g.ReviewedAt == null))
            orderby p.StartDay, g.Position
            select new
            {
                Report = r.Id,
                r.LearnerId,
                p.Name,
                g.GoalId,
                g.Status,
                r.FinishedAt,
                Owns = db.GoalOwners.Any(o => o.AgencyId == g.AgencyId && o.GoalId == g.GoalId && o.PersonId == caller.PersonId && o.FromDay <= p.EndDay && o.ToDay >= p.StartDay),
                Wrote = db.ReportParts.Any(x => x.AgencyId == g.AgencyId && x.ReportId == g.ReportId && x.GoalId == g.GoalId && x.PersonId == caller.PersonId),
                Signed = db.ReportSignatures.Any(s => s.AgencyId == g.AgencyId && s.ReportId == r.Id && s.PersonId == caller.PersonId && s.Hash == r.Hash),
            });
        var waits = rows.GroupBy(r => r.Report).SelectMany(report =>
        {
            var first = report.First();
            if (first.FinishedAt is not null)
                return report.Where(g => g.Owns || caller.Manages(g.LearnerId)).Select(g => new ReportWaits(g.Report, g.LearnerId, g.Name, ReportWait.Review, g.GoalId));
            if (report.All(g => g.Status is not null))
                return !first.Signed && (report.Any(g => g.Owns) || caller.Manages(first.LearnerId))
                    ? [new ReportWaits(report.Key, first.LearnerId, first.Name, ReportWait.Signature, null)] : [];
            return report.Where(g => g is { Owns: true, Wrote: false, Status: null }).Select(g => new ReportWaits(g.Report, g.LearnerId, g.Name, ReportWait.Part, g.GoalId));
        });
        return [.. waits];
    }
}
