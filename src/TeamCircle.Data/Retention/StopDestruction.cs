using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Retention;

/// <summary>Keeps what was to be destroyed. A rule proposes it again after a year at the earliest.</summary>
public sealed class StopDestruction(Portal portal, TimeProvider clock)
{
    public sealed record Input : DestructionInput
    {
        public string? Why { get; init; }
    }

    public sealed record Saved(int Destruction);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "retention"), Operation.Of(operation, nameof(StopDestruction), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await DestructionTurn.FindAsync(db, caller, input, stop);
        if (found.Value is not { } row)
            return Outcome<Saved>.Refused(found.Problems);
        if (RetentionRules.CheckStop(input.Why) is { } problem)
            return Outcome<Saved>.Refused(problem);
        (row.StoppedBy, row.StoppedAt, row.StoppedWhy) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()), input.Why!.Trim());
        return Outcome<Saved>.Of(new(row.Id));
    }
}
