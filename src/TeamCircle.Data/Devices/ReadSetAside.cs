using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Devices;

/// <summary>Something that a device sent and that needs a person.</summary>
/// <param name="Learner">Null where nothing in it led to one, or the reader has no right to that learner any more.</param>
/// <param name="Made">When it was done, by the device's clock, in the agency's time.</param>
/// <param name="Body">JSON of all that was typed or recorded.</param>
/// <param name="At">When it reached the portal, in the agency's time.</param>
public sealed record ListedAside(
    int Id, int Version, OperationKind Kind, int PersonId, string Person, int? LearnerId, string? Learner, LocalDateTime Made, int? SkewMs, string? Device,
    string Why, string Body, LocalDateTime At);

/// <summary>Lists what was set aside and waits: one's own, and for a case manager what is about their learners. Oldest first.</summary>
public sealed class ReadSetAside(Portal portal)
{
    public Task<List<ListedAside>> RunAsync(Caller caller, Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, caller, stop), stop);

    /// <summary>How many there are.</summary>
    internal static async Task<int> CountAsync(PortalDb db, Together all, Caller caller) =>
        (await all.ListAsync(Waiting(db, caller).GroupBy(_ => 1).Select(s => new { Count = s.Count() }))).Sum(s => s.Count);

    internal static IQueryable<SetAsideRow> Waiting(PortalDb db, Caller caller)
    {
        var managed = caller.Standings.Where(s => s.Relation == Relation.CaseManager).Select(s => s.LearnerId).ToList();
        return db.SetAsides.Where(s => s.AgencyId == caller.AgencyId && s.ClosedAt == null
            && (s.PersonId == caller.PersonId || (s.LearnerId != null && managed.Contains(s.LearnerId.Value))));
    }

    private static async Task<List<ListedAside>> ReadAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var rows = await (
            from s in Waiting(db, caller)
            join p in db.People on new { s.AgencyId, Id = s.PersonId } equals new { p.AgencyId, p.Id }
            orderby s.Id
            select new
            {
                Row = s,
                Person = p.Name,
                Learner = db.Learners.Where(l => l.AgencyId == s.AgencyId && l.Id == s.LearnerId).Select(l => l.Name).FirstOrDefault(),
                Device = db.Devices.Where(d => d.AgencyId == s.AgencyId && d.Id == s.DeviceId).Select(d => d.Name).FirstOrDefault(),
            }).ToListAsync(stop);
        return [.. rows.Select(r => new ListedAside(
            r.Row.Id, r.Row.Version, r.Row.Kind, r.Row.PersonId, r.Person, r.Learner is null ? null : r.Row.LearnerId, r.Learner,
            r.Row.Made.InZone(zone).LocalDateTime, r.Row.SkewMs, r.Device, r.Row.Why, r.Row.Body, r.Row.At.InZone(zone).LocalDateTime))];
    }
}
