using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Import;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Import;

/// <summary>Reads what the agency holds, as far as files may refer to it: a fixed number of queries, whatever the number of rows.</summary>
internal sealed class StoredFacts(PortalDb db, int agency)
{
    /// <param name="visitDays">The days of the visits that are brought.</param>
    /// <param name="visitRefs">The agency's own numbers that are brought.</param>
    public async Task<ImportFacts> ReadAsync(LocalDate today, LocalDate[] visitDays, string[] visitRefs, CancellationToken stop)
    {
        var learners = await LearnersAsync(stop);
        var services = await ServicesAsync(stop);
        return new ImportFacts
        {
            Today = today,
            Agency = await AgencyAsync(stop),
            Terms = await db.Terms.Where(t => t.AgencyId == agency).Select(t => new TermFact(t.Name, new Term(t.FirstDay, t.LastDay, t.Kind))).ToListAsync(stop),
            Periods = await db.Periods.Where(p => p.AgencyId == agency).Select(p => new PeriodFact(p.Name, p.StartDay, p.EndDay)).ToListAsync(stop),
            SpecialDays = await db.Closures.Where(c => c.AgencyId == agency && c.Live).Select(c => new SpecialDay(c.OnDay, c.Kind)).ToListAsync(stop),
            Emails = await db.People.Where(p => p.AgencyId == agency && p.Email != "terminal").Select(p => p.Email).ToListAsync(stop),
            Learners = learners,
            Services = services,
            Goals = await GoalsAsync(stop),
            Visits = await VisitsAsync(visitDays, visitRefs, stop),
        };
    }

    private async Task<AgencyFact?> AgencyAsync(CancellationToken stop)
    {
        var row = await db.Agencies.Where(a => a.Id == agency).Select(a => new { a.Weekdays, a.WeekStart }).SingleAsync(stop);
        var policies = await db.Policies.Where(p => p.AgencyId == agency).OrderBy(p => p.FromDay).ThenBy(p => p.Id)
            .Select(p => new Policy(p.ShortWindow, p.Surplus, p.TolerancePercent, p.SessionShare)).ToListAsync(stop);
        return new(row.Weekdays, row.WeekStart, policies);
    }

    private async Task<List<LearnerFact>> LearnersAsync(CancellationToken stop)
    {
        var plans = (await db.Plans.Where(p => p.AgencyId == agency).OrderBy(p => p.StartDay)
            .Select(p => new { p.LearnerId, p.StartDay, p.EndDay }).ToListAsync(stop))
            .ToLookup(p => p.LearnerId, p => DateRange.Of(p.StartDay, p.EndDay));
        var learners = await db.Learners.Where(l => l.AgencyId == agency).Select(l => new { l.Id, l.Code }).ToListAsync(stop);
        return [.. learners.Select(l => new LearnerFact(l.Code, [.. plans[l.Id]]))];
    }

    private async Task<List<ServiceFact>> ServicesAsync(CancellationToken stop)
    {
        var versions = (await db.ServiceVersions.Where(v => v.AgencyId == agency).OrderBy(v => v.FromDay)
            .Select(v => new { v.ServiceId, Fact = new VersionFact(v.Code, v.FromDay, v.Quantity, v.Sessions) }).ToListAsync(stop))
            .ToLookup(v => v.ServiceId, v => v.Fact);
        var services = await (
            from s in db.Services
            join l in db.Learners on new { s.AgencyId, Id = s.LearnerId } equals new { l.AgencyId, l.Id }
            where s.AgencyId == agency
            select new { Row = s, Learner = l.Code }).AsNoTracking().ToListAsync(stop);
        return [.. services.Select(s => Fact(s.Row, s.Learner, [.. versions[s.Row.Id]]))];
    }

    private static ServiceFact Fact(ServiceRow s, string learner, List<VersionFact> versions) => new(
        s.Code, learner, s.Discipline, s.Kind, s.Place, s.Format, s.Terms, s.CoTreatment, s.ShortWindow, new Every(s.EveryUnit, s.EveryCount),
        s.Wording, s.FromDay, s.ToDay, versions);

    private async Task<List<GoalFact>> GoalsAsync(CancellationToken stop)
    {
        var commitments = (await db.ProbeCommitments.Where(c => c.AgencyId == agency).OrderBy(c => c.FromDay)
            .Select(c => new { c.GoalId, c.EveryUnit, c.EveryCount, c.Probes }).ToListAsync(stop)).ToLookup(c => c.GoalId);
        var goals = await (
            from g in db.Goals
            join l in db.Learners on new { g.AgencyId, Id = g.LearnerId } equals new { l.AgencyId, l.Id }
            where g.AgencyId == agency
            select new { g.Id, g.Code, Learner = l.Code, g.Measure, g.FromDay, g.ToDay }).ToListAsync(stop);
        return [.. goals.Select(g => commitments[g.Id].LastOrDefault() is { } c
            ? new GoalFact(g.Code, g.Learner, g.Measure, g.FromDay, g.ToDay, new Every(c.EveryUnit, c.EveryCount), c.Probes)
            : new GoalFact(g.Code, g.Learner, g.Measure, g.FromDay, g.ToDay, new Every(EveryUnit.Week, 1), 0))];
    }

    private async Task<List<StoredVisit>> VisitsAsync(LocalDate[] days, string[] refs, CancellationToken stop)
    {
        if (days.Length == 0)
            return [];
        var visits = await (
            from v in db.Visits
            from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.Id == v.ServiceId).DefaultIfEmpty()
            join l in db.Learners on new { v.AgencyId, Id = v.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
            where v.AgencyId == agency && v.Live && (days.Contains(v.OnDay) || (v.Ref != null && refs.Contains(v.Ref)))
            orderby v.OnDay, v.StartTime, v.Id
            select new { Visit = v, Service = s == null ? "" : s.Code, Kind = (ServiceKind?)s.Kind, CoTreatment = (CoTreatment?)s.CoTreatment, Learner = l.Code, Provider = p.Email }).AsNoTracking().ToListAsync(stop);
        return [.. visits.Select(v => new StoredVisit(
            v.Visit.Id, v.Visit.Ref, v.Service, v.Learner, v.Provider, v.Visit.OnDay, v.Visit.StartTime, v.Visit.Minutes,
            v.Visit.State == VisitState.Planned, v.Visit.PlannedStart, v.Visit.PlannedMinutes,
            v.Visit.TakesTime && v.Visit.State != VisitState.CalledOff, v.Visit.LearnersTime,
            v.Visit.Format == SessionFormat.Group || v.Kind is ServiceKind.Consultation or ServiceKind.ParentCounselingAndTraining,
            v.CoTreatment ?? CoTreatment.None, v.Visit.GroupNo, v.Visit.TogetherNo))];
    }
}
