using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Family;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Reports;

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
    /// <summary>Progress reports that the case manager shared, the latest first.</summary>
    public IReadOnlyList<SharedReport> Reports { get; init; } = [];

    /// <summary>Published summaries, the latest first.</summary>
    public IReadOnlyList<FamilySummary> Summaries { get; init; } = [];

    /// <summary>Where the child is quiet nothing is told that is not past; what was shared stays.</summary>
    public bool IsQuiet { get; init; }

    /// <summary>Whether the agency lets families tell the team something on their page.</summary>
    public bool Tells { get; init; }

    /// <summary>Whether the reader may say here with one tap what was practised at home.</summary>
    public bool Taps { get; init; }

    public FamilyMember? CaseManager => Team.FirstOrDefault(m => m.IsCaseManager);
}

/// <param name="Email">Of the case manager only, who is the one to ask.</param>
public sealed record FamilyMember(string Name, IReadOnlyList<Discipline> Disciplines, bool IsCaseManager, string? Email);

/// <summary>A published summary; both days belong to it.</summary>
public sealed record FamilySummary(int Id, LocalDate From, LocalDate To);

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

    /// <summary>Visits between two days, both of them among them, in order of time.</summary>
    internal static async Task<IReadOnlyList<FamilyVisit>> VisitsAsync(PortalDb db, int agency, int child, LocalDate first, LocalDate last, CancellationToken stop) =>
        await (
            from v in db.Visits
            from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
            join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
            where v.AgencyId == agency && v.LearnerId == child && v.Live && v.OnDay >= first && v.OnDay <= last
            let logged = db.Sessions.Where(d => d.AgencyId == v.AgencyId && d.VisitId == v.Id && d.Live)
                .Select(d => new { Outcome = (VisitOutcome?)d.Outcome, d.Reason, d.Credited, d.Withheld }).FirstOrDefault()
            orderby v.OnDay, v.StartTime
            select new FamilyVisit(
                v.OnDay, v.StartTime, v.Minutes, v.Kind, s == null ? null : s.Discipline, p.Name, v.Place, v.PaysOn != null, v.State == VisitState.CalledOff,
                logged.Outcome, v.CalledOff ?? logged.Reason, (int?)logged.Credited ?? 0, v.ExpectedStart)
            { Withheld = logged.Withheld }).ToListAsync(stop);

    private sealed class Query(PortalDb db, Caller caller, int child)
    {
        private readonly int _agency = caller.AgencyId;

        public async Task<FamilyFacts?> RunAsync(CancellationToken stop)
        {
            if (await db.Learners.Where(l => l.AgencyId == _agency && l.Id == child).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
                return null;
            var agency = await db.Agencies.Where(a => a.Id == _agency).Select(a => new
            {
                a.Name,
                a.FamilyTells,
                Taps = a.HomeTaps && db.Relations.Any(r => r.AgencyId == a.Id && r.LearnerId == child && r.PersonId == caller.PersonId && r.Kind == Relation.Family && r.TapsAtHome),
            }).SingleAsync(stop);
            var quiet = await QuietLearners.SinceAsync(db, _agency, child, stop);
            var visits = await VisitsAsync(db, _agency, child, caller.Today.PlusDays(-Days), caller.Today.PlusDays(Days - 1), stop);
            return new FamilyFacts(
                child, name, agency.Name, await TeamAsync(stop), [.. visits.Where(v => v.On < LocalDate.Min(caller.Today, quiet ?? caller.Today)).Reverse()],
                quiet is null ? [.. visits.Where(v => v.On >= caller.Today)] : [], quiet is null ? await ClosuresAsync(stop) : [], await NotOwedAsync(stop), await OtherChildrenAsync(stop))
            {
                Reports = await ReadReports.SharedAsync(db, _agency, child, stop),
                Summaries = await db.FamilySummaries.Where(s => s.AgencyId == _agency && s.LearnerId == child && s.PublishedAt != null && s.WithdrawnAt == null)
                    .OrderByDescending(s => s.LastDay).ThenByDescending(s => s.Id).Select(s => new FamilySummary(s.Id, s.FirstDay, s.LastDay)).ToListAsync(stop),
                Tells = agency.FamilyTells,
                Taps = agency.Taps && quiet is null,
                IsQuiet = quiet is not null,
            };
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
