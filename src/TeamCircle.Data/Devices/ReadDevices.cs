using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Devices;

/// <summary>A device; times are the agency's.</summary>
/// <param name="LastContact">Null before the first.</param>
/// <param name="RevokedAt">Null while it may be used, with <paramref name="RevokedBy"/>, who did it.</param>
public sealed record ListedDevice(Guid Id, string Name, LocalDateTime MadeAt, LocalDateTime? LastContact, LocalDateTime? RevokedAt, string? RevokedBy);

/// <summary>Lists a person's devices, newest first, those that were revoked last.</summary>
public sealed class ReadDevices(Portal portal)
{
    /// <param name="scope">The person's own, or the whole agency.</param>
    public Task<IReadOnlyList<ListedDevice>> RunAsync(Scope scope, int person, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, person, stop), stop);

    private static async Task<IReadOnlyList<ListedDevice>> ReadAsync(PortalDb db, int agency, int person, CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
        var devices = await (
            from d in db.Devices
            where d.AgencyId == agency && d.PersonId == person
            orderby d.RevokedAt != null, d.MadeAt descending
            select new { Row = d, By = db.People.Where(p => p.AgencyId == d.AgencyId && p.Id == d.RevokedBy).Select(p => p.Name).FirstOrDefault() }).ToListAsync(stop);
        return [.. devices.Select(d => new ListedDevice(d.Row.Id, d.Row.Name, Local(d.Row.MadeAt), At(d.Row.LastContact), At(d.Row.RevokedAt), d.By))];

        LocalDateTime Local(Instant at) => at.InZone(zone).LocalDateTime;
        LocalDateTime? At(Instant? at) => at is { } then ? Local(then) : null;
    }
}
