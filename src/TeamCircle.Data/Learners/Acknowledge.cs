using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Says that the caller has read the learner's plan as it stands, and knows their part in it (34 CFR 300.323(d)).</summary>
public sealed class Acknowledge(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }

        /// <summary>The state of the plan that the page showed: what became of it since has not been read.</summary>
        public int State { get; set; }
    }

    public sealed record Saved(int Learner);

    /// <summary>Refused with field "Version" where the plan was amended since it was shown.</summary>
    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        AcknowledgmentRules.IsAsked(caller, input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(Acknowledge), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await PlanStates.FindAsync(db, caller, input.Learner, stop) is not { } plan)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (plan.Number != input.State)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        // Two pages that say it at once are one saying.
        await db.Database.ExecuteSqlAsync($"""
            insert into portal.acknowledgments (agency_id, learner_id, plan_id, person_id, state, on_day)
            values ({caller.AgencyId}, {input.Learner}, {plan.PlanId}, {caller.PersonId}, {plan.Number}, {caller.Today}) on conflict do nothing
            """, stop);
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
