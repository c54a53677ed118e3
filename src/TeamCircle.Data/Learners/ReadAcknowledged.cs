using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Learners;

/// <summary>Who on a learner's team has read the plan in force.</summary>
/// <param name="Plan">Null where no plan is in force.</param>
/// <param name="People">Everybody who is asked, by name.</param>
public sealed record AcknowledgedPage(int Learner, string Name, PlanState? Plan, IReadOnlyList<PersonReading> People);

/// <param name="On">The day of their latest confirmation of this plan; null where there is none.</param>
public sealed record PersonReading(int PersonId, string Name, Relation Relation, PlanKnown Known, LocalDate? On);

/// <summary>Reads who has read a learner's plan; four statements.</summary>
public sealed class ReadAcknowledged(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<AcknowledgedPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop);
        if (name is null)
            return null;
        var plan = await PlanStates.FindAsync(db, caller, learner, stop);
        return new AcknowledgedPage(learner, name, plan, plan is null ? [] : await PeopleAsync(db, caller, plan, stop));
    }, stop);

    private static async Task<IReadOnlyList<PersonReading>> PeopleAsync(PortalDb db, Caller caller, PlanState plan, CancellationToken stop)
    {
        var members = await (
            from r in db.Relations
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == caller.AgencyId && r.LearnerId == plan.LearnerId && p.EndedAt == null && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)
            orderby p.Name
            select new { p.Id, p.Name, r.Kind }).ToListAsync(stop);
        var readings = await db.Acknowledgments.Where(a => a.AgencyId == caller.AgencyId && a.PlanId == plan.PlanId)
            .Select(a => new PlanReading(a.PersonId, a.State, a.OnDay)).ToListAsync(stop);
        return [.. members.Where(m => AcknowledgmentRules.IsAsked(m.Kind)).DistinctBy(m => m.Id).Select(m =>
        {
            var (known, on) = AcknowledgmentRules.Of(m.Id, plan.Number, readings);
            return new PersonReading(m.Id, m.Name, m.Kind, known, on);
        })];
    }
}
