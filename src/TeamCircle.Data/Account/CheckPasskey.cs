using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;

namespace TeamCircle.Data.Account;

/// <summary>Checks what a passkey answered. It asked for its owner itself, so it counts as both factors.</summary>
public sealed class CheckPasskey(AccountDb db, UserManager<AccountRow> accounts, IPasskeyHandler<AccountRow> passkeys, TimeProvider clock)
{
    /// <summary>The account whose passkey it is; null for an answer that is wrong, late, given twice, or of an account that has ended.</summary>
    /// <param name="key">Of the question (<see cref="AskPasskey"/>).</param>
    /// <param name="account">Whose passkey was asked for; null at the door.</param>
    /// <param name="credential">JSON as the browser gave it.</param>
    public async Task<long?> RunAsync(string? key, long? account, string? credential, Place place, HttpContext http, CancellationToken stop)
    {
        if (await AskPasskey.TakeAsync(db, key, account, Now, stop) is not { } state)
            return null;
        var checkedAnswer = await passkeys.PerformAssertionAsync(new() { HttpContext = http, CredentialJson = credential ?? "", AssertionState = state });
        var isRight = checkedAnswer is { Succeeded: true, User.EndedAt: null } && checkedAnswer.Passkey.IsUserVerified;
        if (!isRight)
        {
            await NoteAsync(account, AccountEvent.SecondStepRefused, place, stop);
            return null;
        }
        await accounts.AddOrUpdatePasskeyAsync(checkedAnswer.User!, checkedAnswer.Passkey!); // its count of uses; saved with the event
        await NoteAsync(checkedAnswer.User!.Id, account is null ? AccountEvent.SignedIn : AccountEvent.SecondStepTaken, place, stop);
        return checkedAnswer.User.Id;
    }

    private Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    private async Task NoteAsync(long? account, string kind, Place place, CancellationToken stop)
    {
        db.Events.Add(new AccountEventRow { AccountId = account, At = Now, Kind = kind, Detail = "passkey", Address = place.Address });
        await db.SaveChangesAsync(stop);
    }
}
