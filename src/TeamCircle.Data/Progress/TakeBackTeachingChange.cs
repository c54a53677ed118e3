using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Progress;

/// <summary>Takes back a noted change of teaching; the row stays with the reason. A change of the target goes with the target itself.</summary>
public sealed class TakeBackTeachingChange(Portal portal)
{
    public sealed record Input
    {
        public int Goal { get; init; }
        public int Change { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }
    }

    public sealed record Saved(int Goal);

    /// <summary>Refused with <see cref="Problem.NotFound"/> where the goal is none of the caller's to write.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(TakeBackTeachingChange), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var change = await db.GoalChanges.SingleOrDefaultAsync(c =>
            c.AgencyId == caller.AgencyId && c.GoalId == input.Goal && c.Id == input.Change && c.Kind == GoalChangeKind.Teaching, stop);
        if (change is null || !(await ChangeGoal.RightsAsync(db, caller, change.LearnerId, change.GoalId, stop)).Any)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<Saved>.Refused(Refusals.NoReason(nameof(input.Why)));
        (change.Live, change.TakenBackReason) = (false, input.Why.Trim());
        return Outcome<Saved>.Of(new(change.GoalId));
    }
}
