using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Devices;

/// <summary>What a device hears at a contact.</summary>
public enum DeviceState
{
    /// <summary>It is none of the caller's.</summary>
    Unknown,
    Active,

    /// <summary>It deletes what it keeps, but for what it has not sent.</summary>
    Revoked,
}

/// <summary>A device asks how things stand; when it did is kept.</summary>
public sealed class ReportContact(Portal portal, TimeProvider clock)
{
    /// <param name="device">Null for a browser that is no device yet.</param>
    public async Task<(Instant Now, DeviceState State)> RunAsync(Caller caller, Guid? device, CancellationToken stop = default)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var work = await portal.OpenAsync(Scope.Of(caller), IsolationLevel.ReadCommitted, stop: stop);
        var row = await work.Db.Devices.SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId && d.Id == device, stop);
        if (row is null)
            return (now, DeviceState.Unknown);
        row.LastContact = now;
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return (now, row.RevokedAt is null ? DeviceState.Active : DeviceState.Revoked);
    }
}
