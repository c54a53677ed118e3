using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>Reads who a person is today: their roles and relations in force, but for a family's seat that pauses since the child has come of age. Once a request.</summary>
public sealed class ReadCaller(Portal portal, TimeProvider clock)
{
    /// <summary>Null where there is no such person, they have ended, or they have no role today.</summary>
    public Task<Caller?> RunAsync(int agency, int person, CancellationToken stop = default) =>
        portal.ReadAsync(new Scope(Wall.Person, agency, person, [], true, "signing in"), db => FindAsync(db, agency, person, stop), stop);

    private async Task<Caller?> FindAsync(PortalDb db, int agency, int person, CancellationToken stop)
    {
        // The agency's day is not known before: what is in force is told from the dates, of which few rows ever end.
        var who = await (
            from p in db.People
            join a in db.Agencies on p.AgencyId equals a.Id
            where p.AgencyId == agency && p.Id == person && p.EndedAt == null
            select new
            {
                p.Name,
                a.TimeZone,
                Majority = new MajorityPolicy(a.MajorityAge, a.MajorityPauses),
                Roles = db.PersonRoles.Where(r => r.AgencyId == agency && r.PersonId == person).Select(r => new { r.Role, r.FromDay, r.ToDay }).ToList(),
                Relations = db.Relations.Where(r => r.AgencyId == agency && r.PersonId == person).Select(r => new { r.LearnerId, r.Kind, r.AdultBasis, r.FromDay, r.ToDay }).ToList(),
            }).SingleOrDefaultAsync(stop);
        if (who is null)
            return null;
        var today = AgencyClock.Today(clock, who.TimeZone);
        var roles = who.Roles.Where(r => r.FromDay <= today && (r.ToDay ?? today) >= today).Select(r => r.Role).ToHashSet();
        var relations = who.Relations.FindAll(r => r.FromDay <= today && (r.ToDay ?? today) >= today);
        var births = relations.Exists(r => r.Kind == Relation.Family) ? await BirthsAsync(db, stop) : [];
        var standings = relations.Where(r => r.Kind != Relation.Family || !ComingOfAge.IsPaused(births.TryGetValue(r.LearnerId, out var born) ? born : null, who.Majority, r.AdultBasis, today))
            .Select(r => new Standing(r.LearnerId, r.Kind)).ToList();
        return roles.Count == 0 ? null : new Caller(agency, person, who.Name, roles, standings, today) { HasPausedSeat = standings.Count < relations.Count };
    }

    private sealed record Birth(int LearnerId, LocalDate BornOn);

    /// <summary>When the children of a family were born, for those of whom it is known: asked on every request, so that what follows from the day needs no job to have run.</summary>
    private static async Task<Dictionary<int, LocalDate>> BirthsAsync(PortalDb db, CancellationToken stop) =>
        await db.Database.SqlQuery<Birth>($"select learner_id, born_on from portal.own_births()").ToDictionaryAsync(b => b.LearnerId, b => b.BornOn, stop);
}
