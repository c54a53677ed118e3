using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Papers;

/// <summary>Facts about days that bind, which several reads need: those that people keep, and those that other parts of the record know.</summary>
internal static class DateFacts
{
    private sealed record PlanFact(int Learner, LocalDate Start, LocalDate End);

    private sealed record ReportFact(int Learner, int Period, int Id, bool IsSent);

    /// <summary>What is open, by day; seven statements.</summary>
    /// <param name="learners">Null: all of the agency.</param>
    public static async Task<IReadOnlyList<BoundDate>> ReadAsync(PortalDb db, int agency, IReadOnlyCollection<int>? learners, LocalDate today, CancellationToken stop) =>
        await ReadAsync(db, agency, learners, await db.Periods.Where(p => p.AgencyId == agency).OrderBy(p => p.StartDay).ToListAsync(stop), today, stop);

    /// <summary>The same for whoever has the reporting periods at hand; six statements.</summary>
    public static async Task<IReadOnlyList<BoundDate>> ReadAsync(
        PortalDb db, int agency, IReadOnlyCollection<int>? learners, IReadOnlyList<PeriodRow> periods, LocalDate today, CancellationToken stop)
    {
        var all = learners is null;
        var of = learners ?? [];
        var plans = (await db.Plans.Where(p => p.AgencyId == agency && (all || of.Contains(p.LearnerId)))
            .Select(p => new PlanFact(p.LearnerId, p.StartDay, p.EndDay)).ToListAsync(stop)).OrderBy(p => p.Start).ToLookup(p => p.Learner);
        var reports = (await db.Reports.Where(r => r.AgencyId == agency && (all || of.Contains(r.LearnerId)))
            .Select(r => new ReportFact(r.LearnerId, r.PeriodId, r.Id, r.SharedAt != null || db.Deliveries.Any(d => d.AgencyId == r.AgencyId && d.LearnerId == r.LearnerId && d.ReportId == r.Id && d.ReturnedOn == null)))
            .ToListAsync(stop)).ToDictionary(r => (r.Learner, r.Period));
        var kept = await db.BoundDates.Where(d => d.AgencyId == agency && d.DoneOn == null && (all || of.Contains(d.LearnerId))).ToListAsync(stop);
        var asked = await db.ExtendedYears.Where(e => e.AgencyId == agency && e.Answer == null && (all || of.Contains(e.LearnerId)))
            .Select(e => new { e.LearnerId, Meeting = 0, On = e.DecideBy, About = "" })
            .Concat(db.Meetings.Where(m => m.AgencyId == agency && m.OnDay >= today && (all || of.Contains(m.LearnerId))
                    && !db.Deliveries.Any(d => d.AgencyId == m.AgencyId && d.LearnerId == m.LearnerId && d.MeetingId == m.Id && d.ReturnedOn == null))
                .Select(m => new { m.LearnerId, Meeting = m.Id, On = m.FamilyBy, m.About })).ToListAsync(stop);
        var licences = await LicencesAsync(db, agency, learners, today, stop);
        var reviews = await CardFacts.ReviewDaysAsync(db, agency, learners, today, stop);
        return BoundDates.Standing([
            .. licences,
            .. kept.Select(Kept),
            .. plans.Select(p => p.Last()).Select(p => new BoundDate(p.Learner, BoundKind.AnnualReview, BoundDates.AnnualReview(p.Start, p.End), null)),
            .. reviews.Select(r => new BoundDate(r.Learner, BoundKind.RoutineReview, r.Until, r.Name) { Paper = r.Routine }),
            .. asked.Select(a => a.Meeting == 0 ? new BoundDate(a.LearnerId, BoundKind.ExtendedYear, a.On, null) : new BoundDate(a.LearnerId, BoundKind.Pack, a.On, a.About) { Paper = a.Meeting }),
            // The next plan may be written already: reports are those of the one that runs.
            .. plans.Select(p => p.LastOrDefault(x => x.Start <= today)).OfType<PlanFact>().SelectMany(plan => periods.Where(p => p.StartDay <= plan.End && p.EndDay >= plan.Start && p.StartDay <= today)
                .Where(p => reports.GetValueOrDefault((plan.Learner, p.Id)) is not { IsSent: true })
                .Select(p => new BoundDate(plan.Learner, BoundKind.Report, BoundDates.ReportDue(p.EndDay), p.Name) { Paper = reports.GetValueOrDefault((plan.Learner, p.Id))?.Id })),
        ]);
    }

    /// <summary>The last days of the licences of whoever is on a team today.</summary>
    private static async Task<IEnumerable<BoundDate>> LicencesAsync(PortalDb db, int agency, IReadOnlyCollection<int>? learners, LocalDate today, CancellationToken stop)
    {
        var all = learners is null;
        var of = learners ?? [];
        var rows = await (
            from r in db.Relations
            join l in db.Licences on new { r.AgencyId, r.PersonId } equals new { l.AgencyId, l.PersonId }
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && (all || of.Contains(r.LearnerId)) && r.Kind != Relation.Family && r.Kind != Relation.Reviewer
                && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today)
            select new { r.LearnerId, Person = p.Name, l.PersonId, l.Name, l.UntilDay }).Distinct().ToListAsync(stop);
        var names = rows.GroupBy(r => r.PersonId).ToDictionary(r => r.Key, r => r.First().Person);
        return rows.GroupBy(r => r.LearnerId, r => new Licence(r.PersonId, r.Name, r.UntilDay)).SelectMany(g => Licences.Latest(g)
            .Select(l => new BoundDate(g.Key, BoundKind.Licence, l.UntilDay, $"{names[l.Person]}, {l.Name}")));
    }

    public static BoundDate Kept(BoundDateRow row) => new(row.LearnerId, row.Kind, row.DueOn, row.RestsOn)
    {
        Id = row.Id,
        From = row.FromDay,
        Note = row.Note,
        RepeatMonths = row.RepeatMonths,
    };
}
