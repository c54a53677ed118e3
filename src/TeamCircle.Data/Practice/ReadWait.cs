using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Practice;

namespace TeamCircle.Data.Practice;

/// <summary>Reads how long a learner takes to respond.</summary>
public sealed class ReadWait(Portal portal)
{
    /// <summary>In one routine; null where the scope reaches no such routine.</summary>
    public Task<WaitPage?> OfRoutineAsync(Scope scope, int routine, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await NamedRoutine.FindAsync(db, scope.AgencyId, routine, stop) is not { } found)
            return null;
        var facts = await PractisedFacts.OfRoutineAsync(db, scope.AgencyId, found.LearnerId, routine, stop);
        return new WaitPage(routine, found.LearnerId, found.Learner, found.Name, new WaitReport(facts.Trials, facts.Waits(null), facts.Lengthened(null)), facts.People);
    }, stop);

    /// <summary>For one goal, over the steps of all routines that serve it; null where the scope reaches no such goal.</summary>
    public Task<WaitPage?> OfGoalAsync(Scope scope, int goal, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var found = await (
            from g in db.Goals
            join l in db.Learners on new { g.AgencyId, Id = g.LearnerId } equals new { l.AgencyId, l.Id }
            where g.AgencyId == scope.AgencyId && g.Id == goal
            select new { g.LearnerId, Learner = l.Name, g.Area }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        var facts = await PractisedFacts.OfGoalAsync(db, scope.AgencyId, found.LearnerId, goal, stop);
        return new WaitPage(goal, found.LearnerId, found.Learner, found.Area, new WaitReport(facts.Trials, facts.Waits(goal), facts.Lengthened(goal)), facts.People);
    }, stop);
}

/// <summary>A routine and whose it is.</summary>
internal sealed record NamedRoutine(int LearnerId, string Learner, string Name)
{
    /// <summary>Null where the scope reaches no such routine.</summary>
    public static Task<NamedRoutine?> FindAsync(PortalDb db, int agency, int routine, CancellationToken stop) => (
        from r in db.Routines
        join l in db.Learners on new { r.AgencyId, Id = r.LearnerId } equals new { l.AgencyId, l.Id }
        where r.AgencyId == agency && r.Id == routine
        select new NamedRoutine(r.LearnerId, l.Name, r.Name)).SingleOrDefaultAsync(stop);
}
