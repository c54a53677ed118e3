using System.Globalization;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.History;

/// <summary>
/// Holds the changes that say they were emptied by a destruction against what that destruction itself left in the trail: how many, and a hash
/// over their numbers. So nobody can pass an alteration off as a destruction.
/// </summary>
internal static class DestroyedChanges
{
    private sealed record Compared(int Destruction, bool IsInTrail, bool Fits);

    /// <summary>The first destruction that does not fit, in a sentence without names; null where all do.</summary>
    public static async Task<string?> MisfitAsync(PortalDb db, int agency, CancellationToken stop)
    {
        // The change that the destruction left stands in a block itself, and was held against its hash before this.
        var found = await db.Database.SqlQuery<Compared>(
            $"""
            select coalesce(e.destruction_id, s.destruction_id) as destruction, s.hash is not null as is_in_trail, coalesce(e.hash, s.none) is not distinct from s.hash as fits
            from (select c.destruction_id, encode(sha256(convert_to(string_agg(c.id::text, ',' order by c.id), 'UTF8')), 'hex') as hash
                  from portal.changes c where c.agency_id = {agency} and c.destruction_id is not null group by c.destruction_id) e
            full join (select c.row_key::int as destruction_id, c.after ->> 'emptied_hash' as hash, encode(sha256(''), 'hex') as none
                       from portal.changes c where c.agency_id = {agency} and c.table_name = 'destructions' and c.act = 'update'
                           and c.before ->> 'destroyed_at' is null and c.after ->> 'destroyed_at' is not null) s on s.destruction_id = e.destruction_id
            order by 1
            """).ToListAsync(stop);
        return found.FirstOrDefault(c => !c.Fits) switch
        {
            null => null,
            { IsInTrail: false } lost => string.Create(CultureInfo.InvariantCulture, $"Altered: changes are said to be emptied by destruction {lost.Destruction}, of which the trail knows nothing."),
            { } other => string.Create(CultureInfo.InvariantCulture, $"Altered: the changes said to be emptied by destruction {other.Destruction} are not those that it emptied."),
        };
    }
}
