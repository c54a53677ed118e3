using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Devices;

/// <summary>Enters what was set aside, as it was sent and for the person who did it: what stood in its way is gone, or a case manager looked at it.</summary>
/// <remarks>Refused with what stands in its way now; then it waits on.</remarks>
public sealed class EnterSetAside(Portal portal, DeviceActs acts, TimeProvider clock)
{
    public sealed record Input(int Id, int Version);

    public sealed record Entered(int Id, OperationKind Kind);

    public Task<Outcome<Entered>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller, "entering what was set aside"), Operation.Of(operation, nameof(EnterSetAside), input), db => WorkAsync(db, caller, operation, input, stop), stop);

    private async Task<Outcome<Entered>> WorkAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        if (await ReadSetAside.Waiting(db, caller).SingleOrDefaultAsync(s => s.Id == input.Id, stop) is not { } row)
            return Outcome<Entered>.Refused(Problem.NotFound);
        db.BeganOn(row, input.Version);
        using var body = JsonDocument.Parse(row.Body);
        var sent = new SentOperation(row.OperationId, SentOperation.MostFormat, row.Kind.ToString(), row.Made, body.RootElement, row.SkewMs);
        var outcome = await acts.Read(sent, row.DeviceId, row.PersonId).Work(db, caller, stop);
        if (outcome.Value is null)
            return Outcome<Entered>.Refused(outcome.Problems.Contains(Problem.NotFound) ? [SyncOperations.NothingThere] : outcome.Problems);
        (row.ClosedAt, row.ClosedBy, row.EnteredBy) = (Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId, operation);
        return Outcome<Entered>.Of(new(row.Id, row.Kind));
    }
}
