using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Retention;

/// <summary>A director agrees to a destruction once the family has had its days; a second person destroys.</summary>
public sealed class AgreeDestruction(Portal portal, TimeProvider clock)
{
    public sealed record Saved(int Destruction);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, DestructionInput input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "director"), Operation.Of(operation, nameof(AgreeDestruction), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, DestructionInput input, CancellationToken stop)
    {
        if (!RetentionRules.MayDecide(caller))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var found = await DestructionTurn.FindAsync(db, caller, input, stop);
        if (found.Value is not { } row)
            return Outcome<Saved>.Refused(found.Problems);
        if (DestructionTurn.StageOf(row, caller.Today) is not DestructionStage.Ready)
            return Outcome<Saved>.Refused("", "It can be agreed to once the family was told and has had its days.");
        if (await DestructionTurn.KeptAsync(db, row, stop) is { } kept)
            return Outcome<Saved>.Refused(kept);
        (row.AgreedBy, row.AgreedAt) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()));
        return Outcome<Saved>.Of(new(row.Id));
    }
}
