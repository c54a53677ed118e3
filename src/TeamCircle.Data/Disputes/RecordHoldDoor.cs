using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Disputes;

/// <summary>How far whoever sets or ends a hold on records reaches: a case manager to the learner, a director through the agency.</summary>
internal static class RecordHoldDoor
{
    public static Scope ScopeOf(Caller caller, int learner) =>
        caller.Stands(learner, Relation.CaseManager) || !caller.Is(Role.Director) ? Scope.OfLearner(caller, learner) : Scope.WholeAgency(caller, "director");

    public static Task<bool> IsThereAsync(PortalDb db, int agency, int learner, CancellationToken stop) =>
        db.Learners.AnyAsync(l => l.AgencyId == agency && l.Id == learner, stop);
}
