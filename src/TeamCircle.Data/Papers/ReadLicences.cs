using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Papers;

/// <param name="Licences">The latest last day first; those renewed too.</param>
public sealed record LicencesPage(int PersonId, string Person, string? Credential, IReadOnlyList<LicenceShown> Licences);

public sealed record LicenceShown(int Id, string Name, LocalDate UntilDay, int Version);

/// <summary>Reads the licences of a person.</summary>
public sealed class ReadLicences(Portal portal)
{
    /// <summary>Null where the scope reaches no such person.</summary>
    public Task<LicencesPage?> RunAsync(Scope scope, int person, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
        await db.People.Where(p => p.AgencyId == scope.AgencyId && p.Id == person).Select(p => new { p.Name, p.Credential }).SingleOrDefaultAsync(stop) is { } row
            ? new LicencesPage(person, row.Name, row.Credential, await db.Licences.Where(l => l.AgencyId == scope.AgencyId && l.PersonId == person)
                .OrderByDescending(l => l.UntilDay).ThenByDescending(l => l.Id).Select(l => new LicenceShown(l.Id, l.Name, l.UntilDay, l.Version)).ToListAsync(stop))
            : null, stop);
}
