using System.Text.Json;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Import;

/// <summary>One import of the past.</summary>
/// <param name="At">Local time of the agency.</param>
/// <param name="Stored">Rows that were new or changed.</param>
public sealed record PastImport(LocalDateTime At, string Person, IReadOnlyList<string> Files, int Stored, int Refused);

/// <summary>The agency's latest imports, newest first.</summary>
public sealed class ReadImports(Portal portal)
{
    private const int Shown = 20;

    public Task<IReadOnlyList<PastImport>> RunAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, stop), stop);

    private static async Task<IReadOnlyList<PastImport>> ReadAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
        var imports = await (
            from i in db.Imports
            join p in db.People on new { i.AgencyId, Id = i.PersonId } equals new { p.AgencyId, p.Id }
            where i.AgencyId == agency
            orderby i.Id descending
            select new { i.At, p.Name, i.Files, i.Stored, i.Refused }).Take(Shown).ToListAsync(stop);
        return [.. imports.Select(i => new PastImport(i.At.InZone(zone).LocalDateTime, i.Name, Names(i.Files), i.Stored, i.Refused))];
    }

    private static List<string> Names(string files) =>
        [.. JsonSerializer.Deserialize<List<FileCount>>(files, JsonSerializerOptions.Web)!.Select(f => f.File)];
}
