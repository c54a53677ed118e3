using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Account;

/// <summary>One agency in which an account may act today.</summary>
public sealed record Membership(int Agency, int Person, string AgencyName, Caller Caller);

/// <summary>The agencies in which an account stands today: those whose person has not ended and has a role.</summary>
public sealed class ReadMemberships(AccountDb db, Portal portal, ReadCaller readCaller)
{
    public async Task<IReadOnlyList<Membership>> RunAsync(long account, CancellationToken stop)
    {
        var rows = await db.Memberships.AsNoTracking().Where(m => m.AccountId == account).OrderBy(m => m.AgencyId).ToListAsync(stop);
        var found = new List<Membership>();
        foreach (var row in rows)
        {
            if (await readCaller.RunAsync(row.AgencyId, row.PersonId, stop) is { } caller)
                found.Add(new(row.AgencyId, row.PersonId, await NameAsync(caller, stop), caller));
        }
        return found;
    }

    private Task<string> NameAsync(Caller caller, CancellationToken stop) =>
        portal.ReadAsync(
            new Scope(Wall.Person, caller.AgencyId, caller.PersonId, [], false, "signing in"),
            db => db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.Name).SingleAsync(stop), stop);
}
