using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Family;

/// <summary>What a family sees at once, without anybody publishing it: facts only, no notes, no judgement of a provider, no other child.</summary>
/// <param name="Before">Visits of the last two weeks, newest first.</param>
/// <param name="Coming">Today and the next two weeks, in order.</param>
/// <param name="Closures">Days of the next two weeks on which the agency is closed.</param>
/// <param name="NotOwed">Decisions of the reporting period that minutes need not be made up.</param>
/// <param name="OtherChildren">The caller's own other children, where they have any.</param>
public sealed record FamilyFacts(
    int LearnerId, string Child, string Agency, IReadOnlyList<FamilyMember> Team, IReadOnlyList<FamilyVisit> Before, IReadOnlyList<FamilyVisit> Coming,
    IReadOnlyList<FamilyClosure> Closures, IReadOnlyList<FamilyDecision> NotOwed, IReadOnlyList<OtherChild> OtherChildren)
{
    public FamilyMember? CaseManager => Team.FirstOrDefault(m => m.IsCaseManager);
}

/// <param name="Email">Of the case manager only, who is the one to ask.</param>
public sealed record FamilyMember(string Name, IReadOnlyList<Discipline> Disciplines, bool IsCaseManager, string? Email);

/// <param name="Outcome">Null where nothing has been logged.</param>
/// <param name="Given">Minutes that were given; 0 where none.</param>
/// <param name="Expected">When somebody who runs late expects to begin.</param>
public sealed record FamilyVisit(
    LocalDate On, LocalTime Start, int Minutes, VisitKind Kind, Discipline? Discipline, string Provider, Place Place, bool IsMakeUp,
    VisitState State, VisitOutcome? Outcome, Reason? Reason, int Given, LocalTime? Expected)
{
    public LocalTime End => Start.PlusMinutes(Minutes);
}

public sealed record FamilyClosure(LocalDate On, string Name);

public sealed record FamilyDecision(int ServiceId, LocalDate On, int Minutes, LocalDate DecidedOn, LocalDate? ToldOn);

public sealed record OtherChild(int LearnerId, string Name);

/// <summary>Reads the facts of one child for the family.</summary>
public sealed class ReadFamilyFacts(Portal portal)
{
    private const int Days = 14;

    /// <summary>Null where the scope reaches no such child.</summary>
    public Task<FamilyFacts?> RunAsync(Caller caller, Scope scope, int child, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, caller, child).RunAsync(stop), stop);

    private sealed class Query(PortalDb db, Caller caller, int child)
    {
        private readonly int _agency = caller.AgencyId;

        public async Task<FamilyFacts?> RunAsync(CancellationToken stop)
        {
            if (await db.Learners.Where(l => l.AgencyId == _agency && l.Id == child).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
                return null;
            var agency = await db.Agencies.Where(a => a.Id == _agency).Select(a => a.Name).SingleAsync(stop);
            var visits = await VisitsAsync(stop);
            return new FamilyFacts(
                child, name, agency, await TeamAsync(stop), [.. visits.Where(v => v.On < caller.Today).Reverse()], [.. visits.Where(v => v.On >= caller.Today)],
                await ClosuresAsync(stop), await NotOwedAsync(stop), await OtherChildrenAsync(stop));
        }

        private async Task<IReadOnlyList<FamilyMember>> TeamAsync(CancellationToken stop)
        {
            var members = await (
                from r in db.Relations
                join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
                where r.AgencyId == _agency && r.LearnerId == child && r.Kind != Relation.Family && r.Kind != Relation.Reviewer
                    && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)
                select new { p.Id, p.Name, p.Email, r.Kind }).ToListAsync(stop);
            var ids = members.Select(m => m.Id).ToList();
            var disciplines = (await db.PersonDisciplines.Where(d => d.AgencyId == _agency && ids.Contains(d.PersonId)).ToListAsync(stop))
                .ToLookup(d => d.PersonId, d => d.Discipline);
            return [.. members.GroupBy(m => m.Id)
                .Select(g => (One: g.First(), Manages: g.Any(m => m.Kind is Relation.CaseManager)))
                .OrderByDescending(m => m.Manages).ThenBy(m => m.One.Name, StringComparer.OrdinalIgnoreCase)
                .Select(m => new FamilyMember(m.One.Name, [.. disciplines[m.One.Id].Order()], m.Manages, m.Manages ? m.One.Email : null))];
        }

        private async Task<IReadOnlyList<FamilyVisit>> VisitsAsync(CancellationToken stop)
        {
            var (first, last) = (caller.Today.PlusDays(-Days), caller.Today.PlusDays(Days - 1));
            return await (
                from v in db.Visits
                from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
                join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
                where v.AgencyId == _agency && v.LearnerId == child && v.Live && v.OnDay >= first && v.OnDay <= last
                let logged = db.Sessions.Where(d => d.AgencyId == v.AgencyId && d.VisitId == v.Id && d.Live)
                    .Select(d => new { Outcome = (VisitOutcome?)d.Outcome, d.Reason, d.Credited }).FirstOrDefault()
                orderby v.OnDay, v.StartTime
                select new FamilyVisit(
                    v.OnDay, v.StartTime, v.Minutes, v.Kind, s == null ? null : s.Discipline, p.Name, v.Place, v.PaysOn != null, v.State,
                    logged.Outcome, v.CalledOff ?? logged.Reason, (int?)logged.Credited ?? 0, v.ExpectedStart)).ToListAsync(stop);
        }

        private async Task<IReadOnlyList<FamilyClosure>> ClosuresAsync(CancellationToken stop)
        {
            var last = caller.Today.PlusDays(Days - 1);
            return await db.Closures.Where(c => c.AgencyId == _agency && c.Live && c.Kind != Core.Calendar.ClosureKind.Extra && c.OnDay >= caller.Today && c.OnDay <= last)
                .OrderBy(c => c.OnDay).Select(c => new FamilyClosure(c.OnDay, c.Name)).ToListAsync(stop);
        }

        private async Task<IReadOnlyList<FamilyDecision>> NotOwedAsync(CancellationToken stop) =>
            await db.Decisions.Where(d => d.AgencyId == _agency && d.LearnerId == child && d.Live && d.ServiceId != null && d.Kind == DecisionKind.NotOwed)
                .OrderBy(d => d.OnDay).Select(d => new FamilyDecision(d.ServiceId!.Value, d.OnDay, d.Amount, d.DecidedOn, d.FamilyToldOn)).ToListAsync(stop);

        private async Task<IReadOnlyList<OtherChild>> OtherChildrenAsync(CancellationToken stop)
        {
            var own = caller.Standings.Where(s => s.Relation is Relation.Family && s.LearnerId != child).Select(s => s.LearnerId).ToList();
            return await db.Learners.Where(l => l.AgencyId == _agency && own.Contains(l.Id)).OrderBy(l => l.Name)
                .Select(l => new OtherChild(l.Id, l.Name)).ToListAsync(stop);
        }
    }
}
