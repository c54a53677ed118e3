using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Account;

namespace TeamCircle.Data.Account;

/// <summary>Takes a code of the authenticator app, or a recovery code, as the second step of a sign-in or of a change that asks for it again.</summary>
/// <remarks>
/// A code counts once: the latest step that was taken is stored in the statement that checks it, so that neither a replay within its half minute
/// nor two portals at the same moment take it twice (RFC 6238, 5.2; OWASP ASVS 5.0, 6.5.1).
/// </remarks>
public sealed class TakeSecondStep(AccountDb db, AuthenticatorSeal seal, SignInThrottle throttle)
{
    /// <summary>One place for everybody but known browsers: whoever has the password has five tries a quarter of an hour, from how many addresses so ever.</summary>
    private const string Elsewhere = "elsewhere";

    /// <summary><see cref="SecondStep.None"/> for a wrong code, one that was used and a place that must wait, all alike.</summary>
    public async Task<SecondStep> RunAsync(long account, string? typed, Place place, CancellationToken stop)
    {
        var (what, from) = ($"codes of account {account}", place.Known.FirstOrDefault(k => k.Account == account)?.Mark ?? Elsewhere);
        var mayTry = await throttle.TryTakeAsync(what, from, stop);
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var taken = mayTry ? await TakeAsync(account, typed ?? "", stop) : SecondStep.None;
        db.Events.Add(new AccountEventRow
        {
            AccountId = account,
            At = throttle.Now,
            Kind = taken is SecondStep.None ? AccountEvent.SecondStepRefused : AccountEvent.SecondStepTaken,
            Detail = !mayTry ? "told to wait" : taken is SecondStep.RecoveryCode ? "recovery code" : null,
            Address = place.Address,
        });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        if (taken is not SecondStep.None)
            await throttle.SucceededAsync(what, from, stop);
        return taken;
    }

    private async Task<SecondStep> TakeAsync(long account, string typed, CancellationToken stop)
    {
        if (RecoveryCodes.LooksLike(typed))
            return await RecoveryCodes.TakeAsync(db, account, typed, throttle.Now, stop) ? SecondStep.RecoveryCode : SecondStep.None;
        var secret = await db.Authenticators.Where(a => a.AccountId == account).Select(a => a.Secret).SingleOrDefaultAsync(stop);
        var digits = string.Concat(typed.Where(char.IsAsciiDigit));
        return secret is not null && seal.Open(secret).StepOf(digits, throttle.Now) is { } step && await TakeStepAsync(account, step, stop)
            ? SecondStep.Code : SecondStep.None;
    }

    private async Task<bool> TakeStepAsync(long account, long step, CancellationToken stop) =>
        await db.Authenticators.Where(a => a.AccountId == account && a.LastStep < step)
            .ExecuteUpdateAsync(set => set.SetProperty(a => a.LastStep, step), stop) == 1;
}
