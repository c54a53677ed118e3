using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Account;

/// <summary>Uses an invitation, once, for somebody for whom the agency's identity provider has vouched: their account has no password.</summary>
public sealed class JoinByProvider(ReadLink read, UserManager<AccountRow> accounts, AccountDb db)
{
    public sealed record Done(long Account);

    /// <returns><see cref="Problem.NotFound"/> where the link does not hold any more.</returns>
    public async Task<Outcome<Done>> RunAsync(string key, ProviderIdentity who, Place place, CancellationToken stop)
    {
        if (await read.RunAsync(InvitationKind.Join, key, stop) is not { } link)
            return Outcome<Done>.Refused(Problem.NotFound);
        var linked = await db.ProviderLinks.Where(l => l.Issuer == who.Issuer && l.Subject == who.Subject).Select(l => (long?)l.AccountId).SingleOrDefaultAsync(stop);
        if (linked is null && link.HasAccount)
            return Outcome<Done>.Refused("", "An account with this e-mail address exists: join with its password, then link it under Your second step.");
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        if (!await db.TakeAsync(link, stop))
            return Outcome<Done>.Refused(Problem.NotFound);
        if ((linked ?? await MakeAsync(link, who, stop)) is not { } account)
            return Outcome<Done>.Refused(LinkProvider.IsSomebodyElses);
        db.Memberships.Add(new MembershipRow { AgencyId = link.Row.AgencyId!.Value, PersonId = link.Row.PersonId!.Value, AccountId = account, Since = link.Now });
        db.Events.Add(new AccountEventRow { AccountId = account, At = link.Now, Kind = AccountEvent.Joined, Detail = $"agency {link.Row.AgencyId}, by an identity provider", Address = place.Address });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(account));
    }

    /// <summary>Null where the identity was linked meanwhile.</summary>
    private async Task<long?> MakeAsync(OfferedLink link, ProviderIdentity who, CancellationToken stop)
    {
        var account = new AccountRow { UserName = link.Email, Email = link.Email, LockoutEnabled = false };
        if (!(await accounts.CreateAsync(account)).Succeeded)
            return null;
        await db.SaveChangesAsync(stop);
        return await LinkProvider.AddAsync(db, account.Id, who, link.Now, stop) == 1 ? account.Id : null;
    }
}
