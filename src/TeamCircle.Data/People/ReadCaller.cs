using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.People;

/// <summary>Reads who a person is today: their roles and relations in force. Once a request.</summary>
public sealed class ReadCaller(Portal portal, TimeProvider clock)
{
    /// <summary>Null where there is no such person, they have ended, or they have no role today.</summary>
    public Task<Caller?> RunAsync(int agency, int person, CancellationToken stop = default) =>
        portal.ReadAsync(new Scope(Wall.Person, agency, person, [], true, "signing in"), db => FindAsync(db, agency, person, stop), stop);

    private async Task<Caller?> FindAsync(PortalDb db, int agency, int person, CancellationToken stop)
    {
        var who = await (
            from p in db.People
            join a in db.Agencies on p.AgencyId equals a.Id
            where p.AgencyId == agency && p.Id == person && p.EndedAt == null
            select new { p.Name, a.TimeZone }).SingleOrDefaultAsync(stop);
        if (who is null)
            return null;
        var today = AgencyClock.Today(clock, who.TimeZone);
        var roles = await db.PersonRoles
            .Where(r => r.AgencyId == agency && r.PersonId == person && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today))
            .Select(r => r.Role).ToListAsync(stop);
        var standings = await db.Relations
            .Where(r => r.AgencyId == agency && r.PersonId == person && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today))
            .Select(r => new Standing(r.LearnerId, r.Kind)).ToListAsync(stop);
        return roles.Count == 0 ? null : new Caller(agency, person, who.Name, roles.ToHashSet(), standings, today);
    }
}
