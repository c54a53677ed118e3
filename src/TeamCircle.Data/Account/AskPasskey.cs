using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>What a page's script hands to the browser, and the key under which the answer is looked for.</summary>
/// <param name="Options">JSON of the Web Authentication API.</param>
public sealed record PasskeyQuestion(string Key, string Options);

/// <summary>Asks for a passkey, or for a new one: the challenge is kept here and taken away by the first answer, within five minutes.</summary>
public sealed class AskPasskey(AccountDb db, IPasskeyHandler<AccountRow> passkeys, TimeProvider clock)
{
    private static readonly Duration Lasts = Duration.FromMinutes(5);

    /// <param name="account">Whose passkey; null at the door, where the passkey says who it is.</param>
    public async Task<PasskeyQuestion> ForSignInAsync(long? account, HttpContext http, CancellationToken stop)
    {
        var user = account is null ? null : await db.Users.SingleAsync(u => u.Id == account, stop);
        var asked = await passkeys.MakeRequestOptionsAsync(user!, http); // for nobody in particular where there is no user
        return await KeepAsync(account, asked.AssertionState!, asked.RequestOptionsJson, stop);
    }

    public async Task<PasskeyQuestion> ForNewOneAsync(long account, HttpContext http, CancellationToken stop)
    {
        var user = await db.Users.SingleAsync(u => u.Id == account, stop);
        var entity = new PasskeyUserEntity { Id = $"{user.Id}", Name = user.Email!, DisplayName = user.Email! };
        var asked = await passkeys.MakeCreationOptionsAsync(entity, http);
        return await KeepAsync(account, asked.AttestationState!, asked.CreationOptionsJson, stop);
    }

    private async Task<PasskeyQuestion> KeepAsync(long? account, string state, string options, CancellationToken stop)
    {
        var (key, now) = (Secret.Make(), Instant.FromDateTimeOffset(clock.GetUtcNow()));
        await db.PasskeyChallenges.Where(c => c.EndsAt < now).ExecuteDeleteAsync(stop);
        db.PasskeyChallenges.Add(new PasskeyChallengeRow { KeyHash = key.Hash, AccountId = account, State = state, EndsAt = now + Lasts });
        await db.SaveChangesAsync(stop);
        return new(key.Text, options);
    }

    /// <summary>Takes a challenge away, once. Null where there is none of that key for that account, or it is too old.</summary>
    internal static async Task<string?> TakeAsync(AccountDb db, string? key, long? account, Instant now, CancellationToken stop)
    {
        var hash = Secret.Of(key ?? "").Hash;
        var taken = await db.Database.SqlQuery<string>($"""
            delete from account.passkey_challenges where key_hash = {hash} and account_id is not distinct from {account} and ends_at > {now} returning state as "Value"
            """).ToListAsync(stop);
        return taken is [var state] ? state : null;
    }
}
