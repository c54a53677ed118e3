using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Asks for the password of somebody who is signed in already, before an act that a tablet left open must not allow.</summary>
public sealed class ConfirmPassword(AccountDb db, CheckPassword check)
{
    public async Task<bool> RunAsync(long account, string password, Place place, CancellationToken stop)
    {
        var email = await db.Users.Where(u => u.Id == account).Select(u => u.Email!).SingleAsync(stop);
        return await check.RunAsync(email, password, place, AccountEvent.PasswordGivenAgain, stop) is not null;
    }
}
