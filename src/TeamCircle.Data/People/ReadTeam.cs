using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>How one person stands to a learner.</summary>
public sealed record TeamMember(
    int Id, int Version, int PersonId, string Person, Relation Kind, LocalDate FromDay, LocalDate? ToDay, string? Supervisor, string? Ground)
{
    public bool HoldsOn(LocalDate day) => FromDay <= day && (ToDay is null || day <= ToDay);
}

/// <summary>A learner's team and family, and who may be added to it.</summary>
/// <param name="Members">By relation, then by name; ended ones too.</param>
/// <param name="People">Everybody in the agency who has a role today.</param>
public sealed record TeamPage(string Learner, IReadOnlyList<TeamMember> Members, IReadOnlyList<NamedId> People);

/// <summary>Reads the people around a learner.</summary>
public sealed class ReadTeam(Portal portal)
{
    /// <summary>Null where the scope does not reach such a learner.</summary>
    public Task<TeamPage?> RunAsync(Scope scope, int learner, LocalDate today, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, scope.AgencyId, learner, today, stop), stop);

    private static async Task<TeamPage?> FindAsync(PortalDb db, int agency, int learner, LocalDate today, CancellationToken stop)
    {
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var relations = await db.Relations.Where(r => r.AgencyId == agency && r.LearnerId == learner).ToListAsync(stop);
        var names = await db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var roles = await ReadStaff.RolesAsync(db, agency, today, stop);
        return new(
            name,
            [
                .. relations.Select(r => new TeamMember(r.Id, r.Version, r.PersonId, names[r.PersonId], r.Kind, r.FromDay, r.ToDay,
                    r.SupervisorId is { } supervisor ? names[supervisor] : null, r.Ground))
                    .OrderBy(m => m.Kind == Relation.CaseManager ? 0 : 1 + (int)m.Kind).ThenBy(m => m.Person).ThenBy(m => m.FromDay),
            ],
            [.. names.Where(n => roles.TryGetValue(n.Key, out var held) && !held.Contains(Role.Terminal))
                .Select(n => new NamedId(n.Key, n.Value)).OrderBy(n => n.Name)]);
    }
}
