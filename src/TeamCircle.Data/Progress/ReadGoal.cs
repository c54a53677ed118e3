using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Progress;

/// <summary>Reads one goal with its probes, for the forms that record them.</summary>
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
        var agency = caller.AgencyId;
        var found = await (
            from g in db.Goals
            join l in db.Learners on new { g.AgencyId, Id = g.LearnerId } equals new { l.AgencyId, l.Id }
            join a in db.Agencies on g.AgencyId equals a.Id
            where g.AgencyId == agency && g.Id == id
            select new { g.LearnerId, l.Name, g.Area, g.Statement, g.Measure, a.TimeZone }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        var probes = await ProbesOnRecord.ReadAsync(db, caller, id, DateTimeZoneProviders.Tzdb[found.TimeZone], stop);
        var team = await TeamMember.ReadAsync(db, agency, [found.LearnerId], caller.Today, stop);
        return new(
            id, found.LearnerId, found.Name, found.Area, found.Statement, found.Measure, probes,
            RecordRules.MayRecord(caller, found.LearnerId, caller.PersonId), caller.Manages(found.LearnerId), [.. team.Select(t => new Colleague(t.PersonId, t.Name))]);
    }
}
