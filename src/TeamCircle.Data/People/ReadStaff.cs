using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>Reads the people of the agency who may be chosen for something today.</summary>
public sealed class ReadStaff(Portal portal)
{
    /// <summary>Who gives services: providers and case managers.</summary>
    public Task<IReadOnlyList<NamedId>> RunAsync(Scope scope, LocalDate today, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => GiversAsync(db, scope.AgencyId, today, stop), stop);

    internal static async Task<IReadOnlyList<NamedId>> GiversAsync(PortalDb db, int agency, LocalDate today, CancellationToken stop) =>
        await db.People
            .Where(p => p.AgencyId == agency && p.EndedAt == null && db.PersonRoles.Any(r => r.AgencyId == agency && r.PersonId == p.Id
                && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today) && (r.Role == Role.Provider || r.Role == Role.CaseManager)))
            .OrderBy(p => p.Name).Select(p => new NamedId(p.Id, p.Name)).ToListAsync(stop);

    /// <summary>Roles of today of everybody who has not ended.</summary>
    internal static async Task<IReadOnlyDictionary<int, IReadOnlySet<Role>>> RolesAsync(PortalDb db, int agency, LocalDate today, CancellationToken stop)
    {
        var rows = await db.PersonRoles
            .Where(r => r.AgencyId == agency && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today)
                && db.People.Any(p => p.AgencyId == agency && p.Id == r.PersonId && p.EndedAt == null))
            .Select(r => new { r.PersonId, r.Role }).ToListAsync(stop);
        return rows.GroupBy(r => r.PersonId).ToDictionary(g => g.Key, IReadOnlySet<Role> (g) => g.Select(r => r.Role).ToHashSet());
    }
}
