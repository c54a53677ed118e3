using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Where a password comes from.</summary>
/// <param name="Address">The network address.</param>
/// <param name="Known">The accounts that have signed in from this browser before.</param>
public sealed record Place(string Address, IReadOnlyList<KnownBrowser> Known);

/// <param name="Mark">Random, for this account in this browser.</param>
public sealed record KnownBrowser(long Account, string Mark);

/// <summary>Checks an e-mail address and a password, slowly for whoever guesses, and keeps what came of it.</summary>
public sealed class CheckPassword(UserManager<AccountRow> accounts, AccountDb db, SignInThrottle throttle, DemonstrationAccounts demonstration)
{
    public static readonly Problem NotTogether = new("",
        "This e-mail address and this password do not go together. After several wrong tries we look again a quarter of an hour later; a browser in which you have signed in before keeps a count of its own.");

    /// <summary>Null for an unknown address, a wrong password, an ended account and a place that must wait, all alike.</summary>
    /// <param name="as">What stands in the account's events where the password is right.</param>
    public async Task<AccountRow?> RunAsync(string email, string password, Place place, string @as, CancellationToken stop)
    {
        var normal = accounts.NormalizeEmail(email.Trim())!;
        var account = await accounts.FindByEmailAsync(normal);
        var known = account is null ? null : place.Known.FirstOrDefault(k => k.Account == account.Id);
        var from = known?.Mark ?? place.Address;
        var mayTry = await throttle.TryTakeAsync(normal, from, stop);
        var right = mayTry && Verify(account, password) && account is { EndedAt: null } && (!account.IsDemonstration || demonstration.AreLetIn)
            && (known is not null || account.AccessFailedCount < SignInThrottle.MostInARow);
        if (right)
            await throttle.SucceededAsync(normal, from, stop);
        await KeepAsync(account, right ? @as : AccountEvent.SignInRefused, mayTry ? null : "told to wait", place.Address, stop);
        return right ? account : null;
    }

    private async Task KeepAsync(AccountRow? account, string kind, string? detail, string address, CancellationToken stop)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        if (account is not null && detail is null)
            await CountAsync(account.Id, kind is AccountEvent.SignInRefused, stop);
        db.Events.Add(new AccountEventRow
        {
            AccountId = account?.Id,
            At = Now,
            Kind = kind,
            Detail = detail,
            Address = address,
        });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
    }

    internal Instant Now => throttle.Now;

    // In the database, so that two failures at the same moment are two.
    private Task<int> CountAsync(long account, bool failed, CancellationToken stop) =>
        db.Users.Where(a => a.Id == account).ExecuteUpdateAsync(
            set => set.SetProperty(a => a.AccessFailedCount, a => failed ? a.AccessFailedCount + 1 : 0), stop);

    private bool Verify(AccountRow? account, string password)
    {
        var hasher = accounts.PasswordHasher;
        throttle.NobodysHash ??= hasher.HashPassword(new AccountRow(), Secret.Make().Text);
        return hasher.VerifyHashedPassword(account ?? new AccountRow(), account?.PasswordHash ?? throttle.NobodysHash, PasswordRules.Normal(password))
            is not PasswordVerificationResult.Failed;
    }
}
