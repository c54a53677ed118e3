using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>
/// Which discipline owns what a learner's holds lie on, and whether the caller may end them. A part of "How we teach" has its owner; a
/// routine and its steps belong to the discipline that reviewed the card last, and to none where nobody has; a service to its own.
/// </summary>
internal sealed class HoldOwners(PortalDb db, Caller caller, int learner)
{
    private Dictionary<TeachPart, Discipline?>? _parts;
    private Dictionary<int, Discipline>? _routines;
    private HashSet<Discipline>? _qualified;

    public async Task<HoldEnding> EndingAsync(HoldPlace place, CancellationToken stop)
    {
        _qualified ??= [.. await db.PersonDisciplines.Where(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId).Select(d => d.Discipline).ToListAsync(stop)];
        return HoldRules.MayEnd(caller, learner, await OwnerAsync(place, stop), _qualified);
    }

    /// <summary>Null where no discipline owns it.</summary>
    public async Task<Discipline?> OwnerAsync(HoldPlace place, CancellationToken stop)
    {
        if (place.Part is { } part)
        {
            _parts ??= await db.TeachParts.Where(p => p.AgencyId == caller.AgencyId && p.LearnerId == learner).ToDictionaryAsync(p => p.Part, p => p.Owner, stop);
            return _parts.TryGetValue(part, out var owner) ? owner : HowWeTeach.UsualOwner(part);
        }
        if (place.Service is { } service)
            return await db.Services.IgnoreQueryFilters().Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == learner && s.Id == service).Select(s => (Discipline?)s.Discipline).SingleOrDefaultAsync(stop);
        _routines ??= await RoutinesAsync(stop);
        return place.Routine is { } routine && _routines.TryGetValue(routine, out var discipline) ? discipline : null;
    }

    private async Task<Dictionary<int, Discipline>> RoutinesAsync(CancellationToken stop)
    {
        var reviews = await (
            from r in db.RoutineReviews
            join v in db.RoutineVersions on new { r.AgencyId, r.LearnerId, Id = r.VersionId } equals new { v.AgencyId, v.LearnerId, v.Id }
            where r.AgencyId == caller.AgencyId && r.LearnerId == learner
            orderby r.ReviewedOn, r.Id
            select new { v.RoutineId, r.Discipline }).ToListAsync(stop);
        return reviews.GroupBy(r => r.RoutineId).ToDictionary(g => g.Key, g => g.Last().Discipline);
    }
}
