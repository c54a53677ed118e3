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

    /// <summary>What is open, by day; one statement.</summary>
    /// <param name="learners">Null: all of the agency.</param>
    public static Task<IReadOnlyList<BoundDate>> ReadAsync(PortalDb db, int agency, IReadOnlyCollection<int>? learners, LocalDate today, CancellationToken stop) =>
        Together.AloneAsync(db, all => ReadAsync(db, all, agency, learners, null, today), stop);

    /// <inheritdoc cref="ReadAsync(PortalDb, int, IReadOnlyCollection{int}?, LocalDate, CancellationToken)"/>
    public static Task<IReadOnlyList<BoundDate>> ReadAsync(
        PortalDb db, int agency, IReadOnlyCollection<int>? learners, IReadOnlyList<PeriodRow> periods, LocalDate today, CancellationToken stop) =>
        Together.AloneAsync(db, all => ReadAsync(db, all, agency, learners, periods, today), stop);

    /// <summary>The same together with other reads.</summary>
    /// <param name="periods">The reporting periods, oldest first, of whoever has them at hand; else null.</param>
    public static async Task<IReadOnlyList<BoundDate>> ReadAsync(
        PortalDb db, Together all, int agency, IReadOnlyCollection<int>? learners, IReadOnlyList<PeriodRow>? periods, LocalDate today)
    {
        var (isAll, of) = (learners is null, learners ?? []);
        var ofPeriods = periods is null ? all.ListAsync(db.Periods.Where(p => p.AgencyId == agency).OrderBy(p => p.StartDay)) : null;
        var ofPlans = all.ListAsync(db.Plans.Where(p => p.AgencyId == agency && (isAll || of.Contains(p.LearnerId))).Select(p => new PlanFact(p.LearnerId, p.StartDay, p.EndDay)));
        var ofReports = all.ListAsync(db.Reports.Where(r => r.AgencyId == agency && (isAll || of.Contains(r.LearnerId)))
            .Select(r => new ReportFact(r.LearnerId, r.PeriodId, r.Id, r.SharedAt != null || db.Deliveries.Any(d => d.AgencyId == r.AgencyId && d.LearnerId == r.LearnerId && d.ReportId == r.Id && d.ReturnedOn == null))));
        var kept = all.ListAsync(db.BoundDates.Where(d => d.AgencyId == agency && d.DoneOn == null && (isAll || of.Contains(d.LearnerId))));
        var asked = AskedAsync(db, all, agency, learners, today);
        var (licences, reviews) = (LicencesAsync(db, all, agency, learners, today), CardFacts.ReviewDaysAsync(db, all, agency, learners, today));
        var plans = (await ofPlans).OrderBy(p => p.Start).ToLookup(p => p.Learner);
        var reports = (await ofReports).ToDictionary(r => (r.Learner, r.Period));
        periods ??= await ofPeriods!;
        return BoundDates.Standing([
            .. await licences,
            .. (await kept).Select(Kept),
            .. plans.Select(p => p.Last()).Select(p => new BoundDate(p.Learner, BoundKind.AnnualReview, BoundDates.AnnualReview(p.Start, p.End), null)),
            .. (await reviews).Select(r => new BoundDate(r.Learner, BoundKind.RoutineReview, r.Until, r.Name) { Paper = r.Routine }),
            .. await asked,
            // The next plan may be written already: reports are those of the one that runs.
            .. plans.Select(p => p.LastOrDefault(x => x.Start <= today)).OfType<PlanFact>().SelectMany(plan => periods.Where(p => p.StartDay <= plan.End && p.EndDay >= plan.Start && p.StartDay <= today)
                .Where(p => reports.GetValueOrDefault((plan.Learner, p.Id)) is not { IsSent: true })
                .Select(p => new BoundDate(plan.Learner, BoundKind.Report, BoundDates.ReportDue(p.EndDay), p.Name) { Paper = reports.GetValueOrDefault((plan.Learner, p.Id))?.Id })),
        ]);
    }

    /// <summary>Days by which it is to be decided about more weeks of school, and by which families are to have the papers of a meeting.</summary>
    private static async Task<IEnumerable<BoundDate>> AskedAsync(PortalDb db, Together all, int agency, IReadOnlyCollection<int>? learners, LocalDate today)
    {
        var (isAll, of) = (learners is null, learners ?? []);
        var asked = await all.ListAsync(db.ExtendedYears.Where(e => e.AgencyId == agency && e.Answer == null && (isAll || of.Contains(e.LearnerId)))
            .Select(e => new { e.LearnerId, Meeting = 0, On = e.DecideBy, About = "" })
            .Concat(db.Meetings.Where(m => m.AgencyId == agency && m.OnDay >= today && (isAll || of.Contains(m.LearnerId))
                    && !db.Deliveries.Any(d => d.AgencyId == m.AgencyId && d.LearnerId == m.LearnerId && d.MeetingId == m.Id && d.ReturnedOn == null))
                .Select(m => new { m.LearnerId, Meeting = m.Id, On = m.FamilyBy, m.About })));
        return asked.Select(a => a.Meeting == 0 ? new BoundDate(a.LearnerId, BoundKind.ExtendedYear, a.On, null) : new BoundDate(a.LearnerId, BoundKind.Pack, a.On, a.About) { Paper = a.Meeting });
    }

    /// <summary>The last days of the licences of whoever is on a team today.</summary>
    private static async Task<IEnumerable<BoundDate>> LicencesAsync(PortalDb db, Together all, int agency, IReadOnlyCollection<int>? learners, LocalDate today)
    {
        var (isAll, of) = (learners is null, learners ?? []);
        var rows = await all.ListAsync((
            from r in db.Relations
            join l in db.Licences on new { r.AgencyId, r.PersonId } equals new { l.AgencyId, l.PersonId }
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && (isAll || of.Contains(r.LearnerId)) && r.Kind != Relation.Family && r.Kind != Relation.Reviewer
                && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today)
            select new { r.LearnerId, Person = p.Name, l.PersonId, l.Name, l.UntilDay }).Distinct());
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
