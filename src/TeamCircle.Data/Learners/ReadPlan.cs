using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Learners;

/// <summary>Reads a learner's plans with their services and goals.</summary>
public sealed class ReadPlan(Portal portal)
{
    /// <summary>Null where the scope does not reach such a learner.</summary>
    public Task<PlanPage?> RunAsync(Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, scope.AgencyId, learner, stop), stop);

    private static async Task<PlanPage?> FindAsync(PortalDb db, int agency, int learner, CancellationToken stop)
    {
        var head = await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner)
            .Select(l => new LearnerHead(l.Id, l.Code, l.Name, l.MostMinutesADay, l.SendingDistrict, l.Version)).SingleOrDefaultAsync(stop);
        if (head is null)
            return null;
        var plans = await db.Plans.Where(p => p.AgencyId == agency && p.LearnerId == learner).OrderByDescending(p => p.StartDay).ToListAsync(stop);
        var services = await ServicesAsync(db, agency, learner, stop);
        var goals = await GoalsAsync(db, agency, learner, stop);
        return new(head, [.. plans.Select(p => new PlanView(p.Id, p.Version, p.StartDay, p.EndDay, [.. services[p.Id]], [.. goals[p.Id]]))]);
    }

    private static async Task<ILookup<int, ServiceInPlan>> ServicesAsync(PortalDb db, int agency, int learner, CancellationToken stop)
    {
        var rows = await db.Services.Where(s => s.AgencyId == agency && s.LearnerId == learner)
            .OrderBy(s => s.Position).ThenBy(s => s.FromDay).ThenBy(s => s.Id).ToListAsync(stop);
        var versions = (await db.ServiceVersions.Where(v => v.AgencyId == agency && v.LearnerId == learner).OrderBy(v => v.FromDay).ToListAsync(stop))
            .ToLookup(v => v.ServiceId, v => new AmountView(v.FromDay, v.Quantity, v.QuantityTo, v.Sessions, v.PlanWords, v.PlanPage, v.Reason, v.RecordedAt, v.AssistantsCount));
        var assigned = (await (
            from a in db.Assignments
            join p in db.People on new { a.AgencyId, Id = a.PersonId } equals new { p.AgencyId, p.Id }
            where a.AgencyId == agency && a.LearnerId == learner
            orderby a.FromDay, a.Id
            select new { a.ServiceId, Named = new NamedView(a.Id, a.Version, a.PersonId, p.Name, a.FromDay, a.ToDay) }).ToListAsync(stop))
            .ToLookup(a => a.ServiceId, a => a.Named);
        return rows.ToLookup(s => s.PlanId, s => new ServiceInPlan(
            s.Id, s.Version, s.Code, s.Discipline, s.Kind, s.Place, s.Format, s.Terms, s.CoTreatment, s.ShortWindow, new Every(s.EveryUnit, s.EveryCount),
            s.FromDay, s.ToDay, s.Wording, s.EndReason, rows.Find(c => c.Id == s.ContinuesId)?.Code, [.. versions[s.Id]], [.. assigned[s.Id]]));
    }

    private static async Task<ILookup<int, GoalInPlan>> GoalsAsync(PortalDb db, int agency, int learner, CancellationToken stop)
    {
        var rows = await db.Goals.Where(g => g.AgencyId == agency && g.LearnerId == learner).OrderBy(g => g.Position).ThenBy(g => g.Id).ToListAsync(stop);
        var probes = (await db.ProbeCommitments.Where(c => c.AgencyId == agency && c.LearnerId == learner).OrderBy(c => c.FromDay).ToListAsync(stop))
            .ToLookup(c => c.GoalId, c => new ProbesView(c.FromDay, c.Probes, new Every(c.EveryUnit, c.EveryCount), c.ByEach));
        var owners = (await (
            from o in db.GoalOwners
            join p in db.People on new { o.AgencyId, Id = o.PersonId } equals new { p.AgencyId, p.Id }
            where o.AgencyId == agency && o.LearnerId == learner
            orderby o.Position, o.FromDay
            select new { o.GoalId, Named = new NamedView(o.Id, o.Version, o.PersonId, p.Name, o.FromDay, o.ToDay) }).ToListAsync(stop))
            .ToLookup(o => o.GoalId, o => o.Named);
        var objectives = (await db.Objectives.Where(o => o.AgencyId == agency && o.LearnerId == learner).OrderBy(o => o.Position).ToListAsync(stop))
            .ToLookup(o => o.GoalId, o => new ObjectiveView(o.Statement, o.TargetDay));
        return rows.ToLookup(g => g.PlanId, g => new GoalInPlan(
            g.Id, g.Version, g.Code, g.Area, g.Statement, g.Target, g.TargetDay, new GoalTerms().Take(g),
            g.FromDay, g.ToDay, [.. probes[g.Id]], [.. owners[g.Id]], [.. objectives[g.Id]]));
    }
}
