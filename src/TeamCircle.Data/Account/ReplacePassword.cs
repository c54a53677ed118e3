using Microsoft.AspNetCore.Identity;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>The step that every change of a password takes inside its transaction; the account's owner is told by mail.</summary>
public sealed class ReplacePassword(UserManager<AccountRow> accounts, NoticeOfChange notice)
{
    /// <param name="password">Has passed our own rules.</param>
    /// <exception cref="InvalidOperationException">Identity refused it all the same.</exception>
    /// <remarks>
    /// One update only: each one gives the account a new concurrency stamp and forgets the stored one, so a second update
    /// before the save (removing the old password, then adding the new) would look for a stamp that was never stored.
    /// </remarks>
    internal async Task RunAsync(AccountDb db, AccountRow account, string password, Instant now, CancellationToken stop)
    {
        account.PasswordHash = accounts.PasswordHasher.HashPassword(account, PasswordRules.Normal(password));
        var set = await accounts.UpdateSecurityStampAsync(account);
        if (!set.Succeeded)
            throw new InvalidOperationException("Identity refused a password that our rules allow.");
        await notice.QueueAsync(db, account.Id, now, stop);
    }
}
