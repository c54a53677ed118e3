using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Devices;

/// <summary>Closes what was set aside without entering it, with the reason. What was typed stays on record.</summary>
public sealed class CloseSetAside(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Id { get; init; }
        public int Version { get; init; }

        [StringLength(1000, ErrorMessage = "Say it in under 1,000 letters.")]
        public string? Why { get; init; }
    }

    public sealed record Closed(int Id);

    public Task<Outcome<Closed>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(CloseSetAside), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Closed>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadSetAside.Waiting(db, caller).SingleOrDefaultAsync(s => s.Id == input.Id, stop) is not { } row)
            return Outcome<Closed>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<Closed>.Refused(nameof(input.Why), "Say why it is not entered: it was typed for a reason.");
        db.BeganOn(row, input.Version);
        (row.ClosedAt, row.ClosedBy, row.ClosedWhy) = (Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId, input.Why.Trim());
        return Outcome<Closed>.Of(new(row.Id));
    }
}
