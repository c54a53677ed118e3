using System.Data;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.History;

/// <summary>Leaves in the record of access that somebody opened pages faster than anybody reads, and was told to wait.</summary>
public sealed class NoteTooMany(Portal portal)
{
    /// <summary>Stands in place of a page.</summary>
    internal const string Page = "GET too many pages";

    /// <param name="address">The network address.</param>
    public async Task RunAsync(int agency, int person, string address, CancellationToken stop = default)
    {
        await using var work = await portal.OpenAsync(Scope.Job(agency, person, "limits"), IsolationLevel.ReadCommitted, stop: stop);
        work.Db.Accesses.Add(new AccessRow { AgencyId = agency, PersonId = person, Ground = "none", Page = Page, Refused = true, Address = address });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }
}

/// <param name="Address">The network address.</param>
public sealed record TooMany(string Person, LocalDateTime At, string Address);

/// <summary>Reads who was told to wait in the last <see cref="Days"/> days, the latest first.</summary>
public sealed class ReadTooMany(Portal portal, TimeProvider clock)
{
    public const int Days = 30, Most = 20;

    public Task<IReadOnlyList<TooMany>> RunAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var since = Instant.FromDateTimeOffset(clock.GetUtcNow()) - Duration.FromDays(Days);
        var rows = await (
            from a in db.Accesses
            join p in db.People on new { a.AgencyId, Id = a.PersonId } equals new { p.AgencyId, p.Id }
            join g in db.Agencies on a.AgencyId equals g.Id
            where a.AgencyId == scope.AgencyId && a.Page == NoteTooMany.Page && a.At >= since
            orderby a.Id descending
            select new { p.Name, a.At, a.Address, g.TimeZone }).Take(Most).ToListAsync(stop);
        return (IReadOnlyList<TooMany>)[.. rows.Select(r => new TooMany(r.Name, r.At.InZone(DateTimeZoneProviders.Tzdb[r.TimeZone]).LocalDateTime, r.Address ?? ""))];
    }, stop);
}
