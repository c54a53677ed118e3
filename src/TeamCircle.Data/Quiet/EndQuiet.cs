using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Quiet;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Quiet;

/// <summary>Ends a learner's quiet, with a reason. What was stopped stays stopped.</summary>
public sealed class EndQuiet(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Quiet { get; init; }
        public int Version { get; init; }

        [StringLength(1000)]
        public string? EndedReason { get; init; }
    }

    public sealed record Saved(int Quiet);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        QuietRules.MaySet(caller, input.Learner)
            ? await portal.WriteAsync(SetQuiet.ScopeFor(caller, input.Learner), Operation.Of(operation, nameof(EndQuiet), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var row = await db.Quiets.SingleOrDefaultAsync(q => q.AgencyId == caller.AgencyId && q.LearnerId == input.Learner && q.Id == input.Quiet, stop);
        if (row is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.EndedAt is not null)
            return Outcome<Saved>.Refused("", "Somebody ended this quiet meanwhile.");
        if (string.IsNullOrWhiteSpace(input.EndedReason))
            return Outcome<Saved>.Refused(nameof(input.EndedReason), "Say why it ends.");
        db.BeganOn(row, input.Version);
        (row.EndedBy, row.EndedAt, row.EndedReason) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()), input.EndedReason.Trim());
        return Outcome<Saved>.Of(new(row.Id));
    }
}
