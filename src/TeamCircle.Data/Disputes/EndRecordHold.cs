using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Disputes;

/// <summary>Ends a hold on records, with the reason: whoever set it, or a director.</summary>
public sealed class EndRecordHold(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Hold { get; init; }
        public int Version { get; init; }
        public string? Word { get; init; }
    }

    public sealed record Saved(int Hold);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        RecordHoldDoor.ScopeOf(caller, input.Learner), Operation.Of(operation, nameof(EndRecordHold), input), db => EndAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> EndAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var hold = await db.RecordHolds.SingleOrDefaultAsync(h => h.AgencyId == caller.AgencyId && h.LearnerId == input.Learner && h.Id == input.Hold, stop);
        if (hold is null || !RecordHoldRules.MayEnd(caller, hold.SetBy))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (hold.EndedAt is not null)
            return Outcome<Saved>.Refused("", "Somebody ended this hold meanwhile.");
        if (RecordHoldRules.CheckEnd(input.Word) is { } problem)
            return Outcome<Saved>.Refused(problem);
        db.BeganOn(hold, input.Version);
        // The database puts its own clock in: entries are dated by it too.
        (hold.EndedBy, hold.EndedAt, hold.EndedWord) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()), input.Word!.Trim());
        return Outcome<Saved>.Of(new(hold.Id));
    }
}
