using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Steps that several operations on an account take inside their transaction.</summary>
internal static class AccountWrites
{
    /// <summary>Ends an account's sign-ins.</summary>
    /// <param name="except">One that stays; null where none does.</param>
    public static Task<int> EndSignInsAsync(this AccountDb db, long account, long? except, Instant now, CancellationToken stop) =>
        db.SignIns.Where(s => s.AccountId == account && s.EndedAt == null && s.Id != except)
            .ExecuteUpdateAsync(set => set.SetProperty(s => s.EndedAt, now), stop);

    /// <param name="password">Has passed our own rules.</param>
    /// <exception cref="InvalidOperationException">Identity refused it all the same.</exception>
    /// <remarks>
    /// One update only: each one gives the account a new concurrency stamp and forgets the stored one, so a second update
    /// before the save (removing the old password, then adding the new) would look for a stamp that was never stored.
    /// </remarks>
    public static async Task ReplacePasswordAsync(this UserManager<AccountRow> accounts, AccountRow account, string password)
    {
        account.PasswordHash = accounts.PasswordHasher.HashPassword(account, PasswordRules.Normal(password));
        var set = await accounts.UpdateSecurityStampAsync(account);
        if (!set.Succeeded)
            throw new InvalidOperationException("Identity refused a password that our rules allow.");
    }

    /// <summary>Takes a link, once. False: somebody took it first.</summary>
    public static async Task<bool> TakeAsync(this AccountDb db, OfferedLink link, CancellationToken stop)
    {
        var (id, now) = (link.Row.Id, link.Now);
        return await db.Invitations.Where(i => i.Id == id && i.UsedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(i => i.UsedAt, now), stop) == 1;
    }
}
