using System.Buffers.Text;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Removes an authenticator app or a passkey of one's own. With the last of them the recovery codes go too.</summary>
public sealed class RemoveFactor(AccountDb db, NoticeOfChange notice, TimeProvider clock)
{
    /// <param name="passkey">A passkey's id in base64url; null for the authenticator app.</param>
    /// <returns>False where the account has no such factor.</returns>
    public async Task<bool> RunAsync(long account, string? passkey, Place place, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var removed = passkey is null
            ? await db.Authenticators.Where(a => a.AccountId == account).ExecuteDeleteAsync(stop)
            : await RemovePasskeyAsync(account, passkey, stop);
        if (removed == 0)
            return false;
        if (!await db.Authenticators.AnyAsync(a => a.AccountId == account, stop) && !await db.UserPasskeys.AnyAsync(p => p.UserId == account, stop))
            await db.RecoveryCodes.Where(c => c.AccountId == account).ExecuteDeleteAsync(stop);
        db.Events.Add(new AccountEventRow
        {
            AccountId = account,
            At = now,
            Kind = passkey is null ? AccountEvent.AuthenticatorRemoved : AccountEvent.PasskeyRemoved,
            Address = place.Address,
        });
        await db.SaveChangesAsync(stop);
        await notice.QueueAsync(db, account, now, stop);
        await transaction.CommitAsync(stop);
        return true;
    }

    private async Task<int> RemovePasskeyAsync(long account, string passkey, CancellationToken stop)
    {
        if (!Base64Url.IsValid(passkey))
            return 0;
        var id = Base64Url.DecodeFromChars(passkey);
        return await db.UserPasskeys.Where(p => p.UserId == account && p.CredentialId == id).ExecuteDeleteAsync(stop);
    }
}
