using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.History;

namespace TeamCircle.Data.Devices;

/// <summary>What opens a device: its key, and the name of its own database.</summary>
/// <param name="Key">32 bytes in base64, for AES-GCM.</param>
public sealed record OpenedDevice(Guid Device, string Key, string Store);

/// <summary>Gives a person who has signed in the key to their own device, and leaves a record of it before the key leaves the portal.</summary>
/// <remarks>Also to one that was revoked: what it has not sent yet can be read and sent, and nothing new is given to it.</remarks>
public sealed class OpenDevice(Portal portal, DeviceKeys keys)
{
    /// <summary>Null where it is none of the caller's.</summary>
    public async Task<OpenedDevice?> RunAsync(Caller caller, Guid device, CancellationToken stop = default)
    {
        await using var work = await portal.OpenAsync(Scope.Of(caller), IsolationLevel.ReadCommitted, stop: stop);
        var row = await work.Db.Devices.AsNoTracking().SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId && d.Id == device, stop);
        if (row is null)
            return null;
        work.Db.Accesses.Add(new AccessRow { AgencyId = caller.AgencyId, PersonId = caller.PersonId, Address = caller.Address, Ground = "own device", Page = "GET /device/key" });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return new(row.Id, keys.Open(row.Key), row.Store);
    }
}
