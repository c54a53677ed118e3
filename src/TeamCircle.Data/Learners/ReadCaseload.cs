using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Learners;

/// <summary>Names by number, for lists over the learners that a person may see.</summary>
/// <param name="WeekStart">The first day of the agency's week.</param>
public sealed record CaseloadNames(
    IReadOnlyDictionary<int, string> Learners, IReadOnlyDictionary<int, string> People, IReadOnlyDictionary<int, Discipline> Services,
    IReadOnlyDictionary<int, string> Goals, IsoDayOfWeek WeekStart)
{
    /// <summary>The last day of the week that holds a day.</summary>
    public LocalDate WeekEnd(LocalDate day) => day.Next(WeekStart).PlusDays(-1);
}

/// <summary>The learners on whose teams somebody is.</summary>
/// <param name="NextVisits">The next planned visit of each learner within the next weeks; learners without one are missing.</param>
public sealed record Caseload(IReadOnlyList<CaseloadLearner> Learners, CaseloadNames Names, IReadOnlyDictionary<int, NextVisit> NextVisits);

/// <param name="IsQuiet">Nobody is asked to act for them.</param>
public sealed record CaseloadLearner(int Id, string Name, bool IsManaged, bool IsQuiet);

public sealed record NextVisit(LocalDate On, LocalTime Start, VisitKind Kind, Discipline? Discipline, int ProviderId);

/// <summary>Reads the learners on a person's teams; where they stand comes from the ledger.</summary>
public sealed class ReadCaseload(Portal portal)
{
    private const int WeeksAhead = 6;

    public Task<Caseload> RunAsync(Caller caller, Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, async db =>
        {
            var names = await NamesAsync(db, scope.AgencyId, stop);
            var quiet = await QuietLearners.ReadAsync(db, scope.AgencyId, stop);
            var learners = names.Learners.Where(l => caller.OnTeam(l.Key)).OrderBy(l => l.Value, StringComparer.OrdinalIgnoreCase)
                .Select(l => new CaseloadLearner(l.Key, l.Value, caller.Manages(l.Key), quiet.Contains(l.Key))).ToList();
            return new Caseload(learners, names, await NextVisitsAsync(db, caller, stop));
        }, stop);

    /// <summary>Learners in reach of whose name the words are a part, or for their case manager of whose legal or former name; whatever its case. All where there are no words.</summary>
    /// <remarks>Former names are behind the database's own wall: for anybody else they are not there to be found.</remarks>
    public Task<IReadOnlySet<int>> FindAsync(Caller caller, Scope scope, string? words, CancellationToken stop = default) => portal.ReadAsync<IReadOnlySet<int>>(scope, async db =>
    {
        var part = $"%{(words ?? "").Trim().Replace("\\", "\\\\", StringComparison.Ordinal).Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal)}%";
        var managed = caller.Learners.Where(caller.Manages).ToList();
        var found = await db.Learners.Where(l => l.AgencyId == scope.AgencyId && (EF.Functions.ILike(l.Name, part)
                || (managed.Contains(l.Id) && l.LegalName != null && EF.Functions.ILike(l.LegalName, part))
                || db.LearnerNames.Any(n => n.AgencyId == l.AgencyId && n.LearnerId == l.Id && EF.Functions.ILike(n.Name, part))))
            .Select(l => l.Id).ToListAsync(stop);
        return found.ToHashSet();
    }, stop);

    public Task<CaseloadNames> NamesAsync(Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => NamesAsync(db, scope.AgencyId, stop), stop);

    private static async Task<CaseloadNames> NamesAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var (all, named) = (new Together(db), Named(db, agency));
        var learners = all.ListAsync(db.Learners.Where(l => l.AgencyId == agency).Select(l => new { l.Id, l.Name }));
        var people = all.ListAsync(db.People.Where(p => p.AgencyId == agency && named.Contains(p.Id)).Select(p => new { p.Id, p.Name }));
        var services = all.ListAsync(db.Services.Where(s => s.AgencyId == agency).Select(s => new { s.Id, s.Discipline }));
        var goals = all.ListAsync(db.Goals.Where(g => g.AgencyId == agency).Select(g => new { g.Id, g.Area }));
        var agencies = all.ListAsync(db.Agencies.Where(a => a.Id == agency).Select(a => new { a.WeekStart }));
        await all.RunAsync(stop, learners, people, services, goals, agencies);
        return new(
            (await learners).ToDictionary(l => l.Id, l => l.Name), (await people).ToDictionary(p => p.Id, p => p.Name), (await services).ToDictionary(s => s.Id, s => s.Discipline),
            (await goals).ToDictionary(g => g.Id, g => g.Area), (await agencies).Single().WeekStart);
    }

    /// <summary>Whoever stands beside a line or a visit to come of the learners in reach, and not all people of the agency: those are more the larger it is.</summary>
    private static IQueryable<int> Named(PortalDb db, int agency) => db.Assignments.Where(a => a.AgencyId == agency).Select(a => a.PersonId)
        .Union(db.GoalOwners.Where(o => o.AgencyId == agency).Select(o => o.PersonId))
        .Union(db.Visits.Where(v => v.AgencyId == agency && v.Live && v.State == VisitState.Planned).Select(v => v.ProviderId));

    private static async Task<IReadOnlyDictionary<int, NextVisit>> NextVisitsAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var last = caller.Today.PlusWeeks(WeeksAhead);
        var visits = await (
            from v in db.Visits
            from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
            where v.AgencyId == caller.AgencyId && v.Live && v.State == VisitState.Planned && v.OnDay >= caller.Today && v.OnDay <= last
            orderby v.OnDay, v.StartTime
            select new { v.LearnerId, Next = new NextVisit(v.OnDay, v.StartTime, v.Kind, s == null ? null : s.Discipline, v.ProviderId) }).ToListAsync(stop);
        return visits.DistinctBy(v => v.LearnerId).ToDictionary(v => v.LearnerId, v => v.Next);
    }
}
