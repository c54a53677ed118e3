using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>Reads a learner's holds.</summary>
public sealed class ReadHolds(Portal portal)
{
    /// <summary>A hold takes a moment to be saved: a contact within it may not have heard.</summary>
    private const int SettlingSeconds = 10;

    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<HoldsPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, caller, learner, stop), stop);

    /// <summary>The team's devices, those longest without contact first.</summary>
    private static async Task<IReadOnlyList<TeamDevice>> DevicesAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var devices = await db.Database.SqlQuery<DeviceContact>($"select person_id, name, last_contact from portal.team_devices({learner}, {caller.Today})").ToListAsync(stop);
        if (devices.Count == 0)
            return [];
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var people = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        return [.. devices.Select(d => new TeamDevice(people.GetValueOrDefault(d.PersonId, "somebody"), d.Name, d.LastContact?.InZone(zone).LocalDateTime))];
    }

    private sealed record DeviceContact(int PersonId, string Name, Instant? LastContact);

    private static async Task<HoldsPage?> FindAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        if (await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var owners = new HoldOwners(db, caller, learner);
        var holds = (await HoldFacts.ReadAsync(db, caller.AgencyId, [learner], ended: true, stop))[learner].ToList();
        var devices = holds.Exists(h => h.Ended is null) ? await DevicesAsync(db, caller, learner, stop) : [];
        var standing = new List<StandingHold>();
        foreach (var hold in holds.Where(h => h.Ended is null))
        {
            standing.Add(new(hold, await owners.OwnerAsync(hold.Place, stop), await owners.EndingAsync(hold.Place, stop),
                [.. devices.Where(d => d.LastContact is null || d.LastContact < hold.SetAt.PlusSeconds(SettlingSeconds))]));
        }
        return new(learner, name, HoldRules.MaySet(caller, learner), standing, [.. holds.Where(h => h.Ended is not null)],
            [.. (await HoldFacts.CardsAsync(db, caller.AgencyId, [learner], stop)).Select(c => new HoldableRoutine(c.Routine, c.Name, c.Card?.Steps ?? []))],
            await db.Services.Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == learner && s.Live && s.ToDay >= caller.Today)
                .OrderBy(s => s.Position).Select(s => new HoldableService(s.Id, s.Code, s.Discipline)).ToListAsync(stop));
    }
}
