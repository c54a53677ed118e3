using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>One role of a person, with its days.</summary>
public sealed record ListedRole(int Id, Role Role, LocalDate FromDay, LocalDate? ToDay, int Version)
{
    public bool HoldsOn(LocalDate day) => FromDay <= day && (ToDay is null || ToDay >= day);

    /// <summary>Ended before it began: it never held.</summary>
    public bool NeverHeld => ToDay < FromDay;
}

/// <summary>One person on the agency's list.</summary>
public sealed record ListedPerson(int Id, string Name, string Email, bool HasEnded, int Version, IReadOnlyList<ListedRole> Roles);

/// <summary>The people of an agency with their roles, by name; its terminal is not one of them.</summary>
public sealed class ReadPeople(Portal portal)
{
    /// <param name="only">One person; null for all.</param>
    public Task<IReadOnlyList<ListedPerson>> RunAsync(Scope scope, int? only, CancellationToken stop) =>
        portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, only, stop), stop);

    private static async Task<IReadOnlyList<ListedPerson>> ReadAsync(PortalDb db, int agency, int? only, CancellationToken stop)
    {
        var people = await db.People.Where(p => p.AgencyId == agency && (only == null || p.Id == only)).OrderBy(p => p.Name).ThenBy(p => p.Id).ToListAsync(stop);
        var roles = (await db.PersonRoles.Where(r => r.AgencyId == agency && (only == null || r.PersonId == only)).OrderBy(r => r.FromDay).ToListAsync(stop))
            .ToLookup(r => r.PersonId, r => new ListedRole(r.Id, r.Role, r.FromDay, r.ToDay, r.Version));
        return [.. people.Where(p => !roles[p.Id].Any(r => r.Role is Role.Terminal))
            .Select(p => new ListedPerson(p.Id, p.Name, p.Email, p.EndedAt is not null, p.Version, [.. roles[p.Id]]))];
    }
}
