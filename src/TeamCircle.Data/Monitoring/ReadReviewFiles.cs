using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Monitoring;

/// <summary>A file that is open to an outside reviewer.</summary>
/// <param name="Authority">On what the disclosure rests.</param>
public sealed record ReviewFileListed(int LearnerId, string Learner, string Code, LocalDate From, LocalDate? To, string? Authority);

/// <summary>Of a learner's file what stands beside the plan, as far as an outside reviewer reads it: no notes, no trials.</summary>
/// <param name="Qualified">The disciplines and the credential of everybody who is or was named.</param>
/// <param name="Visits">Those of the days asked for, in order.</param>
/// <param name="Reports">Those that were shared with the family, the latest first.</param>
/// <param name="Statements">The statements of closed counts, the latest period first.</param>
public sealed record ReviewFile(
    string Learner, string Code, IReadOnlyDictionary<int, ReviewedPerson> Qualified, IReadOnlyList<ReviewedVisit> Visits,
    IReadOnlyList<ReviewedDecision> Decisions, IReadOnlyList<ReviewedRoutine> Routines, IReadOnlyList<ReviewedReport> Reports,
    IReadOnlyList<ReviewedStatement> Statements);

public sealed record ReviewedPerson(string Name, string? Credential, IReadOnlyList<Discipline> Disciplines);

/// <param name="Outcome">Null where nobody has entered what became of it.</param>
public sealed record ReviewedVisit(
    LocalDate On, LocalTime Start, int Minutes, Core.Calendar.VisitKind Kind, Discipline? Discipline, int Provider, VisitState State, VisitOutcome? Outcome, Reason? Reason, int Given,
    LocalDate? PaysOn);

/// <param name="About">The code of the service or goal.</param>
public sealed record ReviewedDecision(
    LocalDate On, string About, bool IsProbes, int Amount, Core.Commitments.DecisionKind Kind, LocalDate DecidedOn, int[] DecidedBy, LocalDate? FamilyToldOn);

public sealed record ReviewedRoutine(int Id, string Name, int Versions);

public sealed record ReviewedReport(int Id, string Period, Instant SharedAt);

/// <param name="Editions">How many there are.</param>
public sealed record ReviewedStatement(int PeriodId, string Period, int Editions);

/// <summary>Reads what is open to an outside reviewer.</summary>
public sealed class ReadReviewFiles(Portal portal)
{
    /// <summary>The caller's files today, by name.</summary>
    public Task<IReadOnlyList<ReviewFileListed>> RunAsync(Caller caller, Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
        (IReadOnlyList<ReviewFileListed>)await (
            from r in db.Relations
            join l in db.Learners on new { r.AgencyId, Id = r.LearnerId } equals new { l.AgencyId, l.Id }
            where r.AgencyId == caller.AgencyId && r.PersonId == caller.PersonId && r.Kind == Relation.Reviewer
                && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)
            orderby l.Name, r.FromDay
            select new ReviewFileListed(l.Id, l.LegalName ?? l.Name, l.Code, r.FromDay, r.ToDay, r.Ground)).ToListAsync(stop), stop);

    /// <summary>Null where the scope reaches no such learner.</summary>
    /// <param name="days">Of visits and decisions; both ends belong to it.</param>
    public Task<ReviewFile?> OfAsync(Scope scope, int learner, DateInterval days, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, scope.AgencyId, learner, days.Start, days.End).RunAsync(stop), stop);

    private sealed class Query(PortalDb db, int agency, int learner, LocalDate first, LocalDate last)
    {
        public async Task<ReviewFile?> RunAsync(CancellationToken stop) =>
            await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => new { Name = l.LegalName ?? l.Name, l.Code }).SingleOrDefaultAsync(stop) is { } head
                ? new(head.Name, head.Code, await QualifiedAsync(stop), await VisitsAsync(stop), await DecisionsAsync(stop), await RoutinesAsync(stop), await ReportsAsync(stop), await StatementsAsync(stop))
                : null;

        private async Task<IReadOnlyDictionary<int, ReviewedPerson>> QualifiedAsync(CancellationToken stop)
        {
            var people = await db.People.Where(p => p.AgencyId == agency && db.Relations.IgnoreQueryFilters().Any(r => r.AgencyId == agency && r.PersonId == p.Id && r.LearnerId == learner
                && r.Kind != Relation.Family && r.Kind != Relation.Reviewer)).ToListAsync(stop);
            int[] ids = [.. people.Select(p => p.Id)];
            var disciplines = (await db.PersonDisciplines.Where(d => d.AgencyId == agency && ids.Contains(d.PersonId)).ToListAsync(stop)).ToLookup(d => d.PersonId, d => d.Discipline);
            return people.ToDictionary(p => p.Id, p => new ReviewedPerson(p.Name, p.Credential, [.. disciplines[p.Id].Order()]));
        }

        private Task<List<ReviewedVisit>> VisitsAsync(CancellationToken stop) => (
            from v in db.Visits
            from s in db.Services.IgnoreQueryFilters().Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
            where v.AgencyId == agency && v.LearnerId == learner && v.Live && v.OnDay >= first && v.OnDay <= last
            let logged = db.Sessions.Where(d => d.AgencyId == v.AgencyId && d.VisitId == v.Id && d.Live)
                .Select(d => new { Outcome = (VisitOutcome?)d.Outcome, d.Reason, d.Credited }).FirstOrDefault()
            orderby v.OnDay, v.StartTime
            select new ReviewedVisit(
                v.OnDay, v.StartTime, v.Minutes, v.Kind, s == null ? null : s.Discipline, v.ProviderId, v.State, logged.Outcome, v.CalledOff ?? logged.Reason,
                (int?)logged.Credited ?? 0, v.PaysOn)).ToListAsync(stop);

        private Task<List<ReviewedDecision>> DecisionsAsync(CancellationToken stop) => (
            from d in db.Decisions
            from s in db.Services.IgnoreQueryFilters().Where(s => s.AgencyId == d.AgencyId && s.Id == d.ServiceId).DefaultIfEmpty()
            from g in db.Goals.IgnoreQueryFilters().Where(g => g.AgencyId == d.AgencyId && g.Id == d.GoalId).DefaultIfEmpty()
            where d.AgencyId == agency && d.LearnerId == learner && d.Live && d.OnDay >= first && d.OnDay <= last
            orderby d.OnDay, d.Id
            select new ReviewedDecision(
                d.OnDay, s == null ? g.Code : s.Code, s == null, d.Amount, d.Kind, d.DecidedOn, d.DecidedBy, d.FamilyToldOn)).ToListAsync(stop);

        private Task<List<ReviewedRoutine>> RoutinesAsync(CancellationToken stop) => db.Routines.Where(r => r.AgencyId == agency && r.LearnerId == learner).OrderBy(r => r.Name)
            .Select(r => new ReviewedRoutine(r.Id, r.Name, db.RoutineVersions.Count(v => v.AgencyId == agency && v.LearnerId == learner && v.RoutineId == r.Id))).ToListAsync(stop);

        private Task<List<ReviewedReport>> ReportsAsync(CancellationToken stop) => (
            from r in db.Reports
            join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && r.LearnerId == learner && r.SharedAt != null
            orderby r.SharedAt descending
            select new ReviewedReport(r.Id, p.Name, r.SharedAt!.Value)).ToListAsync(stop);

        private Task<List<ReviewedStatement>> StatementsAsync(CancellationToken stop) => (
            from s in db.Statements
            where s.AgencyId == agency && s.LearnerId == learner && s.RestatesId == null
            join p in db.Periods.IgnoreQueryFilters() on new { s.AgencyId, Id = s.PeriodId } equals new { p.AgencyId, p.Id }
            orderby p.StartDay descending
            select new ReviewedStatement(
                p.Id, p.Name, db.Statements.Count(e => e.AgencyId == s.AgencyId && e.LearnerId == s.LearnerId && e.PeriodId == s.PeriodId))).ToListAsync(stop);
    }
}
