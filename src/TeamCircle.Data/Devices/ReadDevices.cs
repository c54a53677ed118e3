using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Devices;

/// <param name="LastContact">Null before the first.</param>
/// <param name="RevokedBy">Their name; null while it may be used.</param>
public sealed record ListedDevice(Guid Id, string Name, Instant MadeAt, Instant? LastContact, Instant? RevokedAt, string? RevokedBy);

/// <summary>Lists a person's devices, newest first, those that were revoked last.</summary>
public sealed class ReadDevices(Portal portal)
{
    /// <param name="scope">The person's own, or the whole agency.</param>
    public Task<List<ListedDevice>> RunAsync(Scope scope, int person, CancellationToken stop = default) => portal.ReadAsync(scope, db => (
        from d in db.Devices
        where d.AgencyId == scope.AgencyId && d.PersonId == person
        orderby d.RevokedAt != null, d.MadeAt descending
        select new ListedDevice(d.Id, d.Name, d.MadeAt, d.LastContact, d.RevokedAt,
            db.People.Where(p => p.AgencyId == d.AgencyId && p.Id == d.RevokedBy).Select(p => p.Name).FirstOrDefault())).ToListAsync(stop), stop);
}
