using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Commitments;

/// <summary>Takes a decision back, with a reason; what it was about is undecided again. It stays on record.</summary>
public sealed class TakeBackDecision(Portal portal)
{
    public sealed record Input
    {
        public int Decision { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }
    }

    public sealed record TakenBack(int Decision, int? ServiceId, int? GoalId, int? OwnerId, LocalDate OnDay);

    public Task<Outcome<TakenBack>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(TakeBackDecision), input), db => TakeBackAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<TakenBack>> TakeBackAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await db.Locked<DecisionRow>($"agency_id = {caller.AgencyId} and id = {input.Decision}").ToListAsync(stop);
        if (found is not [var decision] || !caller.IsStaff || !caller.Manages(decision.LearnerId))
            return Outcome<TakenBack>.Refused(Problem.NotFound);
        if (!decision.Live)
            return Outcome<TakenBack>.Refused(Refusals.ChangedMeanwhile);
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<TakenBack>.Refused(Refusals.NoReason(nameof(input.Why)));
        (decision.Live, decision.TakenBackReason) = (false, input.Why.Trim());
        return Outcome<TakenBack>.Of(new(decision.Id, decision.ServiceId, decision.GoalId, decision.OwnerId, decision.OnDay));
    }
}
