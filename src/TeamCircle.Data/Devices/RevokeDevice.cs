using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Devices;

/// <summary>Revokes a device that was lost or is no longer used: at its next contact it deletes what it keeps, and is given nothing any more.</summary>
public sealed class RevokeDevice(Portal portal, TimeProvider clock)
{
    public sealed record Input(Guid Device);

    public sealed record Revoked(Guid Device, int Person);

    /// <summary>One's own, or, by an administrator, anybody's.</summary>
    public Task<Outcome<Revoked>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        caller.Is(Role.Administrator) ? Scope.WholeAgency(caller, "devices") : Scope.Of(caller),
        Operation.Of(operation, nameof(RevokeDevice), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Revoked>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var device = await db.Devices.SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.Id == input.Device, stop);
        if (device is null || (device.PersonId != caller.PersonId && !caller.Is(Role.Administrator)))
            return Outcome<Revoked>.Refused(Problem.NotFound);
        if (device.RevokedAt is null)
            (device.RevokedAt, device.RevokedBy) = (Instant.FromDateTimeOffset(clock.GetUtcNow()), caller.PersonId);
        return Outcome<Revoked>.Of(new(device.Id, device.PersonId));
    }
}
