using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Papers;

namespace TeamCircle.Data.Papers;

/// <summary>Facts about days that bind, which several reads need: those that people keep, and those that other parts of the record know.</summary>
internal static class DateFacts
{
    private sealed record PlanFact(int Learner, LocalDate Start, LocalDate End);

    private sealed record ReportFact(int Learner, int Period, int Id, bool IsSent);

    /// <summary>What is open, by day; six statements.</summary>
    /// <param name="learners">Null: all of the agency.</param>
    public static async Task<IReadOnlyList<BoundDate>> ReadAsync(PortalDb db, int agency, IReadOnlyCollection<int>? learners, LocalDate today, CancellationToken stop)
    {
        var all = learners is null;
        var of = learners ?? [];
        var plans = (await db.Plans.Where(p => p.AgencyId == agency && (all || of.Contains(p.LearnerId)))
            .Select(p => new PlanFact(p.LearnerId, p.StartDay, p.EndDay)).ToListAsync(stop)).GroupBy(p => p.Learner).Select(p => p.MaxBy(x => x.Start)!).ToList();
        var periods = await db.Periods.Where(p => p.AgencyId == agency).OrderBy(p => p.StartDay).Select(p => new { p.Id, p.Name, p.StartDay, p.EndDay }).ToListAsync(stop);
        var reports = (await db.Reports.Where(r => r.AgencyId == agency && (all || of.Contains(r.LearnerId)))
            .Select(r => new ReportFact(r.LearnerId, r.PeriodId, r.Id, r.SharedAt != null || db.Deliveries.Any(d => d.AgencyId == r.AgencyId && d.LearnerId == r.LearnerId && d.ReportId == r.Id && d.ReturnedOn == null)))
            .ToListAsync(stop)).ToDictionary(r => (r.Learner, r.Period));
        var kept = await db.BoundDates.Where(d => d.AgencyId == agency && d.DoneOn == null && (all || of.Contains(d.LearnerId))).ToListAsync(stop);
        var decisions = await db.ExtendedYears.Where(e => e.AgencyId == agency && e.Answer == null && (all || of.Contains(e.LearnerId)))
            .Select(e => new { e.LearnerId, e.DecideBy }).ToListAsync(stop);
        var packs = await db.Meetings.Where(m => m.AgencyId == agency && m.OnDay >= today && (all || of.Contains(m.LearnerId))
                && !db.Deliveries.Any(d => d.AgencyId == m.AgencyId && d.LearnerId == m.LearnerId && d.MeetingId == m.Id && d.ReturnedOn == null))
            .Select(m => new { m.LearnerId, m.Id, m.FamilyBy, m.About }).ToListAsync(stop);
        return BoundDates.Standing([
            .. kept.Select(Kept),
            .. plans.Select(p => new BoundDate(p.Learner, BoundKind.AnnualReview, BoundDates.AnnualReview(p.Start, p.End), null)),
            .. decisions.Select(d => new BoundDate(d.LearnerId, BoundKind.ExtendedYear, d.DecideBy, null)),
            .. packs.Select(m => new BoundDate(m.LearnerId, BoundKind.Pack, m.FamilyBy, m.About) { Paper = m.Id }),
            .. plans.SelectMany(plan => periods.Where(p => p.StartDay <= plan.End && p.EndDay >= plan.Start && p.StartDay <= today)
                .Where(p => reports.GetValueOrDefault((plan.Learner, p.Id)) is not { IsSent: true })
                .Select(p => new BoundDate(plan.Learner, BoundKind.Report, BoundDates.ReportDue(p.EndDay), p.Name) { Paper = reports.GetValueOrDefault((plan.Learner, p.Id))?.Id })),
        ]);
    }

    public static BoundDate Kept(BoundDateRow row) => new(row.LearnerId, row.Kind, row.DueOn, row.RestsOn)
    {
        Id = row.Id,
        From = row.FromDay,
        Note = row.Note,
        RepeatMonths = row.RepeatMonths,
    };
}
