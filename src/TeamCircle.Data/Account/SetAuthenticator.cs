using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Account;

/// <summary>Sets up an account's authenticator app, once a code has shown that the app has the secret. It takes the place of an earlier one.</summary>
public sealed class SetAuthenticator(AccountDb db, AuthenticatorSeal seal, SignInThrottle throttle, NoticeOfChange notice)
{
    /// <param name="NewCodes">Recovery codes made with the first factor, to be shown once; empty where the account has some already.</param>
    public sealed record Done(IReadOnlyList<string> NewCodes);

    public async Task<Outcome<Done>> RunAsync(long account, AuthenticatorSecret secret, string? code, Place place, CancellationToken stop)
    {
        if (!await throttle.TryTakeAsync($"new authenticator of account {account}", place.Address, stop))
            return Outcome<Done>.Refused("NewCode", "Several codes were wrong. Wait a quarter of an hour, then try again.");
        if (secret.StepOf(string.Concat((code ?? "").Where(char.IsAsciiDigit)), throttle.Now) is not { } step)
            return Outcome<Done>.Refused("NewCode", "That is not the code which the app shows now. Wait for the next one; if that is refused too, set the phone's clock to network time.");
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await db.Authenticators.Where(a => a.AccountId == account).ExecuteDeleteAsync(stop);
        db.Authenticators.Add(new AuthenticatorRow { AccountId = account, Secret = seal.Keep(secret), LastStep = step, Since = throttle.Now });
        var codes = await db.RecoveryCodes.AnyAsync(c => c.AccountId == account && c.UsedAt == null, stop) ? [] : await RecoveryCodes.ReplaceAsync(db, account, stop);
        db.Events.Add(new AccountEventRow { AccountId = account, At = throttle.Now, Kind = AccountEvent.AuthenticatorSet, Address = place.Address });
        await db.SaveChangesAsync(stop);
        await notice.QueueAsync(db, account, throttle.Now, stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(codes));
    }
}
