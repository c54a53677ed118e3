using System.Text.Json;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Import;

/// <summary>One import of the past.</summary>
/// <param name="At">Local time of the agency.</param>
/// <param name="Stored">Rows that were new or changed.</param>
/// <param name="UndoneOn">Null while it stands.</param>
public sealed record PastImport(
    int Id, LocalDateTime At, string Person, IReadOnlyList<string> Files, int Stored, int Refused, LocalDate? UndoneOn, string? UndoneBy, string? UndoneReason);

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
            from u in db.People.Where(u => u.AgencyId == i.AgencyId && u.Id == i.UndoneBy).DefaultIfEmpty()
            where i.AgencyId == agency
            orderby i.Id descending
            select new { Row = i, p.Name, UndoneBy = u == null ? null : u.Name }).Take(Shown).ToListAsync(stop);
        return [.. imports.Select(i => new PastImport(i.Row.Id, i.Row.At.InZone(zone).LocalDateTime, i.Name, Names(i.Row.Files), i.Row.Stored, i.Row.Refused,
            i.Row.UndoneAt?.InZone(zone).Date, i.UndoneBy, i.Row.UndoneReason))];
    }

    private static List<string> Names(string files) =>
        [.. JsonSerializer.Deserialize<List<FileCount>>(files, JsonSerializerOptions.Web)!.Select(f => f.File)];
}
