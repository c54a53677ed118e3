using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Progress;

/// <summary>What changed about a goal, with who may note more.</summary>
/// <param name="Changes">The newest first.</param>
public sealed record GoalChangesPage(int Goal, int LearnerId, string Learner, string Area, LocalDate FromDay, bool MayWrite, IReadOnlyList<GoalChange> Changes);

/// <summary>One dated change of target, teaching, waits or prompts.</summary>
/// <param name="Id">Of what people noted; null for what follows from another record.</param>
/// <param name="Routine">The routine whose version changed; null for a change of the goal itself.</param>
/// <param name="By">Who wrote it.</param>
/// <param name="IsOfPrompts">Whether the prompts or their order changed, so that numbers of prompts before and after it cannot be compared.</param>
public sealed record GoalChange(int? Id, LocalDate OnDay, GoalChangeKind? Kind, string Words, int? Routine, string By, bool IsOfPrompts);

/// <summary>Reads what changed about a goal.</summary>
public sealed class ReadGoalChanges(Portal portal)
{
    /// <summary>Null where the scope reaches no such goal.</summary>
    public Task<GoalChangesPage?> RunAsync(Caller caller, Scope scope, int goal, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => PageAsync(db, caller, goal, stop), stop);

    private static async Task<GoalChangesPage?> PageAsync(PortalDb db, Caller caller, int id, CancellationToken stop)
    {
        var found = await (
            from g in db.Goals
            join l in db.Learners on new { g.AgencyId, Id = g.LearnerId } equals new { l.AgencyId, l.Id }
            where g.AgencyId == caller.AgencyId && g.Id == id
            select new { g.LearnerId, l.Name, g.Area, g.FromDay }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        var zone = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
        var noted = await (
            from c in db.GoalChanges
            join p in db.People on new { c.AgencyId, Id = c.RecordedBy } equals new { p.AgencyId, p.Id }
            where c.AgencyId == caller.AgencyId && c.GoalId == id
            orderby c.Id descending
            select new GoalChange(c.Id, c.OnDay, c.Kind, c.Words, null, p.Name, false)).ToListAsync(stop);
        var derived = await OfRoutinesAsync(db, caller.AgencyId, found.LearnerId, id, DateTimeZoneProviders.Tzdb[zone], stop);
        var rights = await ChangeGoal.RightsAsync(db, caller, found.LearnerId, id, stop);
        return new(id, found.LearnerId, found.Name, found.Area, found.FromDay, rights.Any, [.. noted.Concat(derived).OrderByDescending(c => c.OnDay)]);
    }

    /// <summary>Changes of the waits and prompts of the routines that serve a goal. One statement.</summary>
    internal static async Task<IReadOnlyList<GoalChange>> OfRoutinesAsync(
        PortalDb db, int agency, int learner, int goal, DateTimeZone zone, CancellationToken stop)
    {
        var serves = $"{{\"steps\":[{{\"goals\":[{goal}]}}]}}";
        var versions = await (
            from v in db.RoutineVersions
            join r in db.Routines on new { v.AgencyId, v.LearnerId, Id = v.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
            join p in db.People on new { v.AgencyId, Id = v.WrittenBy } equals new { p.AgencyId, p.Id }
            where v.AgencyId == agency && v.LearnerId == learner && EF.Functions.JsonContains(v.Content, serves)
            orderby v.RoutineId, v.Number
            select new { v.RoutineId, r.Name, v.Content, v.WrittenAt, By = p.Name }).ToListAsync(stop);
        return [.. versions.Zip(versions.Skip(1)).Where(pair => pair.First.RoutineId == pair.Second.RoutineId)
            .SelectMany(pair => RoutineDifference.OfPrompting(RoutineContent.Read(pair.First.Content), RoutineContent.Read(pair.Second.Content), goal)
                .Select(change => new GoalChange(
                    null, pair.Second.WrittenAt.InZone(zone).Date, null, $"{pair.Second.Name}: {change.Line}", pair.Second.RoutineId, pair.Second.By, change.IsOfPrompts)))];
    }
}
