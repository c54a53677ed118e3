using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.History;

/// <summary>One request that showed, or was refused, a learner's record.</summary>
/// <param name="At">In the agency's own time.</param>
/// <param name="Page">The page and handler as the access matrix names them.</param>
/// <param name="Ground">The relation or role that opened it, in words.</param>
/// <param name="InList">It stood in a list over several learners.</param>
public sealed record AccessShown(long Id, LocalDateTime At, string Person, string Page, string Ground, bool InList, bool Refused);

/// <param name="More">Whether older entries follow.</param>
public sealed record AccessPage(string Learner, IReadOnlyList<AccessShown> Entries, bool More);

/// <summary>Reads who opened a learner's record, newest first.</summary>
public sealed class ReadAccess(Portal portal)
{
    public const int PageLength = 100, PrintLength = 5000;

    /// <param name="before">Entries older than this one; null begins with the newest.</param>
    /// <param name="length">How many at most.</param>
    /// <returns>Null where the scope reaches no such learner.</returns>
    public Task<AccessPage?> RunAsync(Scope scope, int learner, long? before, int length = PageLength, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, learner, before ?? long.MaxValue, length, stop), stop);

    private static async Task<AccessPage?> ReadAsync(PortalDb db, int agency, int learner, long before, int length, CancellationToken stop)
    {
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.LegalName ?? l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var zone = await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop);
        var rows = await (
            from a in db.Accesses
            join p in db.People on new { a.AgencyId, Id = a.PersonId } equals new { p.AgencyId, p.Id }
            where a.AgencyId == agency && (a.LearnerIds.Contains(learner) || a.WholeAgency) && a.Id < before
            orderby a.Id descending
            select new { a.Id, a.At, p.Name, a.Page, a.Ground, InList = a.WholeAgency || a.LearnerIds.Length > 1, a.Refused })
            .Take(length + 1).ToListAsync(stop);
        var time = DateTimeZoneProviders.Tzdb[zone];
        return new AccessPage(
            name,
            [.. rows.Take(length).Select(r => new AccessShown(r.Id, r.At.InZone(time).LocalDateTime, r.Name, r.Page, r.Ground, r.InList, r.Refused))],
            rows.Count > length);
    }
}
