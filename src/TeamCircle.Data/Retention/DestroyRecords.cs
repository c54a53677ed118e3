using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Retention;

/// <summary>
/// Destroys what a director agreed to, by a second person's hand: the entries, and what the trail of changes held of them. That they were
/// there, and who destroyed them under which rule, stays. Backups keep them until they are themselves thrown away.
/// </summary>
public sealed class DestroyRecords(Portal portal)
{
    /// <param name="Entries">How many were removed or emptied.</param>
    public sealed record Saved(int Entries);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, DestructionInput input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "retention"), Operation.Of(operation, nameof(DestroyRecords), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, DestructionInput input, CancellationToken stop)
    {
        var found = await DestructionTurn.FindAsync(db, caller, input, stop);
        if (found.Value is not { } row)
            return Outcome<Saved>.Refused(found.Problems);
        if (row.Version != input.Version)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        if (row.AgreedBy is null)
            return Outcome<Saved>.Refused("", "A director has to agree first.");
        if (!RetentionRules.MayDestroy(caller, input.Learner, row.AgreedBy))
            return Outcome<Saved>.Refused("", "You agreed to it yourself: somebody else has to destroy it.");
        if (await DestructionTurn.KeptAsync(db, row, stop) is { } kept)
            return Outcome<Saved>.Refused(kept);
        var gone = await db.Database.SqlQuery<int?>($"""select portal.destroy_records({row.Id}) as "Value" """).SingleAsync(stop);
        return gone is { } entries ? Outcome<Saved>.Of(new(entries)) : Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
    }
}
