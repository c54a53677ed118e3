using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>The reviews that stand, by routine.</summary>
internal static class RoutineReviews
{
    public static async Task<ILookup<int, GivenReview>> GivenAsync(PortalDb db, int agency, IReadOnlyCollection<int> routines, CancellationToken stop)
    {
        var reviews = await (
            from r in db.RoutineReviews
            join v in db.RoutineVersions on new { r.AgencyId, r.LearnerId, Id = r.VersionId } equals new { v.AgencyId, v.LearnerId, v.Id }
            where r.AgencyId == agency && routines.Contains(v.RoutineId)
            select new { v.RoutineId, r.Id, v.Number, r.ReviewedOn, v.Content }).ToListAsync(stop);
        return reviews.ToLookup(r => r.RoutineId, r => new GivenReview(r.Id, r.Number, r.ReviewedOn, RoutineContent.Read(r.Content)));
    }
}
