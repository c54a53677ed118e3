using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Devices;

/// <summary>Enters what was set aside, as it was sent and for the person who did it: what stood in its way is gone, or a case manager looked at it.</summary>
/// <remarks>Refused with what stands in its way now; then it waits on. A practice on which a hold lay is entered with a word by whoever may end that hold.</remarks>
public sealed class EnterSetAside(Portal portal, DeviceActs acts, TimeProvider clock)
{
    /// <param name="UnderHold">Why a practice is entered though a hold lay on it; null where nobody knows of one.</param>
    public sealed record Input(int Id, int Version, string? UnderHold = null);

    public sealed record Entered(int Id, OperationKind Kind);

    private const int LongestWord = 1_000;

    public Task<Outcome<Entered>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller, "entering what was set aside"), Operation.Of(operation, nameof(EnterSetAside), input), db => WorkAsync(db, caller, operation, input, stop), stop);

    /// <summary>The same inside an open transaction: also under a restatement, which may enter several.</summary>
    internal async Task<Outcome<Entered>> WorkAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        if (await ReadSetAside.Waiting(db, caller).SingleOrDefaultAsync(s => s.Id == input.Id, stop) is not { } row)
            return Outcome<Entered>.Refused(Problem.NotFound);
        if (input.UnderHold?.Length > LongestWord)
            return Outcome<Entered>.Refused(nameof(input.UnderHold), "Say it in under 1,000 letters.");
        db.BeganOn(row, input.Version);
        using var body = JsonDocument.Parse(row.Body);
        var sent = new SentOperation(row.OperationId, SentOperation.MostFormat, row.Kind.ToString(), row.Made, body.RootElement, row.SkewMs);
        var outcome = await acts.Read(sent, row.DeviceId, new(row.PersonId, input.UnderHold)).Work(db, caller, stop);
        if (outcome.Value is null)
            return Outcome<Entered>.Refused(outcome.Problems.Contains(Problem.NotFound) ? [SyncOperations.NothingThere] : outcome.Problems);
        (row.ClosedAt, row.ClosedBy, row.EnteredBy) = (Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId, operation);
        return Outcome<Entered>.Of(new(row.Id, row.Kind));
    }
}
