using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Commitments;

/// <summary>Who of the agency can take part in a decision.</summary>
/// <param name="Staff">Names by person: everybody who works for the agency today.</param>
/// <param name="Directors">Its directors.</param>
internal sealed record DecisionPeople(IReadOnlyDictionary<int, string> Staff, IReadOnlySet<int> Directors)
{
    public static async Task<DecisionPeople> ReadAsync(PortalDb db, int agency, LocalDate today, CancellationToken stop)
    {
        var roles = await (
            from r in db.PersonRoles
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && p.EndedAt == null && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today)
                && r.Role != Role.Family && r.Role != Role.Reviewer && r.Role != Role.Terminal
            orderby p.Name
            select new { p.Id, p.Name, r.Role }).ToListAsync(stop);
        return new(
            roles.DistinctBy(r => r.Id).ToDictionary(r => r.Id, r => r.Name),
            roles.Where(r => r.Role == Role.Director).Select(r => r.Id).ToHashSet());
    }
}
