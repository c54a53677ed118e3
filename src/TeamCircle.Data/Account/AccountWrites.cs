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
    public static async Task ReplacePasswordAsync(this UserManager<AccountRow> accounts, AccountRow account, string password)
    {
        await accounts.RemovePasswordAsync(account);
        var set = await accounts.AddPasswordAsync(account, PasswordRules.Normal(password));
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
