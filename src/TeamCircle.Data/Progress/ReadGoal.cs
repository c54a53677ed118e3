using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Progress;

/// <summary>Reads one goal with its probes.</summary>
public sealed class ReadGoal(Portal portal)
{
    /// <summary>Null where the scope reaches no such goal.</summary>
    public Task<GoalPage?> RunAsync(Scope scope, Caller caller, int goal, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, caller, goal, stop), stop);

    /// <summary>The goal of a probe.</summary>
    public Task<GoalPage?> OfProbeAsync(Scope scope, Caller caller, Guid probe, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var goal = await db.Probes.Where(p => p.AgencyId == caller.AgencyId && p.Id == probe).Select(p => (int?)p.GoalId).SingleOrDefaultAsync(stop);
        return goal is { } id ? await FindAsync(db, caller, id, stop) : null;
    }, stop);

    private static async Task<GoalPage?> FindAsync(PortalDb db, Caller caller, int id, CancellationToken stop)
    {
        var (agency, me) = (caller.AgencyId, caller.PersonId);
        var goal = await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == agency && g.Id == id && g.Live, stop);
        if (goal is null)
            return null;
        var learner = await db.Learners.Where(l => l.AgencyId == agency && l.Id == goal.LearnerId).Select(l => l.Name).SingleAsync(stop);
        var names = await db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var zone = await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop);
        var probes = await db.Probes.Where(p => p.AgencyId == agency && p.GoalId == id).OrderByDescending(p => p.OnDay).ThenByDescending(p => p.Id).ToListAsync(stop);
        var team = await TeamMember.ReadAsync(db, agency, [goal.LearnerId], caller.Today, stop);
        return new(
            goal.Id, goal.LearnerId, learner, goal.Area, goal.Statement, goal.Measure, goal.Better, goal.Baseline, goal.Target, goal.TargetDay,
            goal.CriterionDays, goal.CriterionOf, goal.FromDay, goal.ToDay,
            await AskedAsync(db, goal, stop), await OwnersAsync(db, goal, stop), await ObjectivesAsync(db, goal, stop),
            [.. probes.Select(p => OnRecord(p, caller, names, DateTimeZoneProviders.Tzdb[zone]))],
            RecordRules.MayRecord(caller, goal.LearnerId, me), caller.Manages(goal.LearnerId), [.. team.Select(t => new Colleague(t.PersonId, t.Name))]);
    }

    private static Task<List<ProbesAsked>> AskedAsync(PortalDb db, GoalRow goal, CancellationToken stop) => db.ProbeCommitments
        .Where(c => c.AgencyId == goal.AgencyId && c.GoalId == goal.Id && c.Live).OrderBy(c => c.FromDay)
        .Select(c => new ProbesAsked(c.FromDay, c.Probes, new Every(c.EveryUnit, c.EveryCount), c.ByEach)).ToListAsync(stop);

    private static Task<List<GoalOwner>> OwnersAsync(PortalDb db, GoalRow goal, CancellationToken stop) => (
        from o in db.GoalOwners
        join p in db.People on new { o.AgencyId, Id = o.PersonId } equals new { p.AgencyId, p.Id }
        where o.AgencyId == goal.AgencyId && o.GoalId == goal.Id && o.Live
        orderby o.Position, o.FromDay
        select new GoalOwner(p.Id, p.Name, o.FromDay, o.ToDay)).ToListAsync(stop);

    private static Task<List<Objective>> ObjectivesAsync(PortalDb db, GoalRow goal, CancellationToken stop) => db.Objectives
        .Where(o => o.AgencyId == goal.AgencyId && o.GoalId == goal.Id && o.Live).OrderBy(o => o.Position)
        .Select(o => new Objective(o.Statement, o.TargetDay)).ToListAsync(stop);

    private static ProbeOnRecord OnRecord(ProbeRow p, Caller caller, Dictionary<int, string> names, DateTimeZone zone) => new(
        p.Id, p.Live, p.OnDay, p.Value, p.Opportunities, p.Kind, p.Stage, p.PaysOn, new(p.Conditions, p.State, p.Position, p.Side, p.Place),
        new(p.ProviderId, names.GetValueOrDefault(p.ProviderId, "somebody")), p.Replaces, p.CorrectionReason, p.TakenBackReason,
        names.GetValueOrDefault(p.RecordedBy, "somebody"), p.RecordedAt.InZone(zone).LocalDateTime,
        p.Live && RecordRules.MayRecord(caller, p.LearnerId, p.ProviderId));
}
