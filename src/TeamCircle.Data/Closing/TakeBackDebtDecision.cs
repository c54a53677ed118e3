using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>Takes back a decision about something brought forward, with a reason; it stays on record.</summary>
public sealed class TakeBackDebtDecision(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Decision { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }
    }

    public sealed record TakenBack(int Debt);

    public Task<Outcome<TakenBack>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operation, nameof(TakeBackDebtDecision), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<TakenBack>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var decision = await db.DebtDecisions.SingleOrDefaultAsync(
            d => d.AgencyId == caller.AgencyId && d.LearnerId == input.Learner && d.Id == input.Decision, stop);
        if (decision is null || !caller.IsStaff || !caller.Manages(decision.LearnerId))
            return Outcome<TakenBack>.Refused(Problem.NotFound);
        if (!decision.Live)
            return Outcome<TakenBack>.Refused(Refusals.ChangedMeanwhile);
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<TakenBack>.Refused(Refusals.NoReason(nameof(input.Why)));
        (decision.Live, decision.TakenBackReason) = (false, input.Why.Trim());
        return Outcome<TakenBack>.Of(new(decision.DebtId));
    }
}
