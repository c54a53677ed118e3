using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Ends a hold, with what has changed: the owning discipline, or the case manager with a licensed person's word.</summary>
public sealed class EndHold(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Hold { get; init; }
        public int Version { get; init; }

        /// <summary>What has changed, and what holds from now on.</summary>
        public string? Word { get; init; }

        /// <summary>The licensed person who agreed, by name and profession.</summary>
        public string? AgreedBy { get; init; }
    }

    public sealed record Saved(int Hold);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(EndHold), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var hold = await db.Holds.SingleOrDefaultAsync(h => h.AgencyId == caller.AgencyId && h.LearnerId == input.Learner && h.Id == input.Hold, stop);
        if (hold is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var ending = await new HoldOwners(db, caller, input.Learner).EndingAsync(hold.Place, stop);
        if (ending == HoldEnding.No)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (hold.EndedAt is not null)
            return Outcome<Saved>.Refused("", "Somebody ended this hold meanwhile.");
        Problem[] problems = [.. HoldRules.CheckEnd(ending, input.Word, input.AgreedBy)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(hold, input.Version);
        (hold.EndedBy, hold.EndedAt, hold.EndedWord) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()), input.Word!.Trim());
        hold.AgreedBy = string.IsNullOrWhiteSpace(input.AgreedBy) ? null : input.AgreedBy.Trim();
        return Outcome<Saved>.Of(new(hold.Id));
    }
}
