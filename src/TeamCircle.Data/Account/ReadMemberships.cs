using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Account;

/// <summary>One agency in which an account may act today.</summary>
public sealed record Membership(int Agency, int Person, string AgencyName, string TimeZone, Caller Caller);

/// <summary>The agencies in which an account stands today: those whose person has not ended and has a role.</summary>
public sealed class ReadMemberships(AccountDb db, Portal portal, ReadCaller readCaller)
{
    public async Task<IReadOnlyList<Membership>> RunAsync(long account, CancellationToken stop)
    {
        var rows = await db.Memberships.AsNoTracking().Where(m => m.AccountId == account).OrderBy(m => m.AgencyId).ToListAsync(stop);
        var found = new List<Membership>();
        foreach (var row in rows)
        {
            if (await readCaller.RunAsync(row.AgencyId, row.PersonId, stop) is not { } caller)
                continue;
            var (name, zone) = await AgencyAsync(caller, stop);
            found.Add(new(row.AgencyId, row.PersonId, name, zone, caller));
        }
        return found;
    }

    private async Task<(string Name, string TimeZone)> AgencyAsync(Caller caller, CancellationToken stop)
    {
        var row = await portal.ReadAsync(
            new Scope(Wall.Person, caller.AgencyId, caller.PersonId, [], false, "signing in"),
            db => db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop), stop);
        return (row.Name, row.TimeZone);
    }
}
