using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Sessions;

/// <summary>Somebody of the agency who works with a learner today.</summary>
public sealed record TeamMember(int LearnerId, int PersonId, string Name)
{
    /// <summary>Each once, by name.</summary>
    internal static async Task<List<TeamMember>> ReadAsync(PortalDb db, int agency, IReadOnlyCollection<int> learners, LocalDate today, CancellationToken stop)
    {
        var members = await (
            from r in db.Relations
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && learners.Contains(r.LearnerId) && r.Live && p.EndedAt == null
                && r.Kind != Relation.Family && r.Kind != Relation.Reviewer && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today)
            orderby p.Name
            select new TeamMember(r.LearnerId, p.Id, p.Name)).ToListAsync(stop);
        return [.. members.Distinct()];
    }
}
