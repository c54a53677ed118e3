using System.Buffers.Text;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Devices;

/// <summary>Makes the caller's browser one of their devices: a key and a place of its own.</summary>
public sealed class EnrolDevice(Portal portal, DeviceKeys keys)
{
    public const int LongestName = 60, MostDevices = 20;

    /// <param name="Name">As its owner will know it again.</param>
    public sealed record Input(string Name);

    /// <summary>The key is not in it: an answer is kept.</summary>
    public sealed record Enrolled(Guid Device);

    public async Task<Outcome<Enrolled>> RunAsync(Caller caller, Input input, CancellationToken stop = default)
    {
        if (!caller.IsStaff)
            return Outcome<Enrolled>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Name) || input.Name.Trim().Length > LongestName)
            return Outcome<Enrolled>.Refused(nameof(input.Name), "Give the device a name of up to 60 letters by which you will know it again.");
        return await portal.WriteAsync(Scope.Of(caller), Operation.Own(nameof(EnrolDevice)), db => WorkAsync(db, caller, input, stop), stop);
    }

    private async Task<Outcome<Enrolled>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.Devices.CountAsync(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId && d.RevokedAt == null, stop) >= MostDevices)
            return Outcome<Enrolled>.Refused(nameof(input.Name), "You have 20 devices already. Revoke those that you no longer use.");
        var device = new DeviceRow
        {
            AgencyId = caller.AgencyId,
            Id = Guid.CreateVersion7(),
            PersonId = caller.PersonId,
            Name = input.Name.Trim(),
            Store = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(16)),
            Key = keys.Make(),
        };
        db.Add(device);
        return Outcome<Enrolled>.Of(new(device.Id));
    }
}
