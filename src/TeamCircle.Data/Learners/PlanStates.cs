using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Learners;

/// <summary>A plan that somebody has to read, or to read again.</summary>
/// <param name="ReadOn">When they read it as it stood before; null where they never did.</param>
public sealed record PlanToRead(int LearnerId, int PlanId, LocalDate? ReadOn);

/// <summary>How far the plans in force have been written, in one statement for all learners of the scope.</summary>
internal static class PlanStates
{
    private sealed record Row(int LearnerId, int PlanId, LocalDate StartDay, LocalDate EndDay, int Number, int? Read, LocalDate? ReadOn);

    /// <summary>The state of a learner's plan in force; null where none is.</summary>
    public static async Task<PlanState?> FindAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) =>
        (await ReadAsync(db, caller, stop)).Where(r => r.LearnerId == learner).Select(r => new PlanState(r.LearnerId, r.PlanId, r.StartDay, r.EndDay, r.Number)).FirstOrDefault();

    /// <summary>Plans in force that the caller is asked to read and has not read as they stand.</summary>
    public static async Task<IReadOnlyList<PlanToRead>> ToReadAsync(PortalDb db, Caller caller, CancellationToken stop) =>
        caller.Learners.Any(l => AcknowledgmentRules.IsAsked(caller, l))
            ? [.. (await ReadAsync(db, caller, stop)).Where(r => AcknowledgmentRules.IsAsked(caller, r.LearnerId) && !(r.Read >= r.Number))
                .OrderBy(r => r.LearnerId).Select(r => new PlanToRead(r.LearnerId, r.PlanId, r.ReadOn))]
            : [];

    // Rows that were taken back count too, and the mapped sets leave them out: so the tables are named here.
    private static Task<List<Row>> ReadAsync(PortalDb db, Caller caller, CancellationToken stop) => db.Database.SqlQuery<Row>($"""
        select p.learner_id, p.id as plan_id, p.start_day, p.end_day, a.state as read, a.on_day as read_on,
            (p.version
             + coalesce((select sum(s.version) from portal.services s where (s.agency_id, s.learner_id, s.plan_id) = (p.agency_id, p.learner_id, p.id)), 0)
             + coalesce((select sum(v.version) from portal.service_versions v
                         join portal.services s on (s.agency_id, s.learner_id, s.id) = (v.agency_id, v.learner_id, v.service_id)
                         where (s.agency_id, s.learner_id, s.plan_id) = (p.agency_id, p.learner_id, p.id)), 0)
             + coalesce((select sum(g.version) from portal.goals g where (g.agency_id, g.learner_id, g.plan_id) = (p.agency_id, p.learner_id, p.id)), 0))::int as number
        from portal.plans p
        left join lateral (
            select r.state, r.on_day from portal.acknowledgments r
            where (r.agency_id, r.learner_id, r.plan_id) = (p.agency_id, p.learner_id, p.id) and r.person_id = {caller.PersonId}
            order by r.state desc limit 1) a on true
        where p.agency_id = {caller.AgencyId} and p.start_day <= {caller.Today} and p.end_day >= {caller.Today}
        """).ToListAsync(stop);
}
