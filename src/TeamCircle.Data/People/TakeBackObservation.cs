using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Takes back a supervision visit that was noted in error; whoever noted it, or the learner's case manager.</summary>
public sealed class TakeBackObservation(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Observation { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Learner);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.IsStaff && caller.IsMember(input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(TakeBackObservation), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var row = await db.Observations.SingleOrDefaultAsync(o => o.AgencyId == caller.AgencyId && o.LearnerId == input.Learner && o.Id == input.Observation, stop);
        if (row is null || !(row.ObserverId == caller.PersonId || caller.Manages(input.Learner)))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Saved>.Refused("Reason", "Say why.");
        (row.Live, row.TakenBackReason) = (false, input.Reason.Trim());
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
