using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Who somebody is at an identity provider: its issuer and its own name for them, together. An e-mail address is never looked at.</summary>
/// <remarks>OWASP ASVS 5.0, 6.8.1: two issuers may call two people by one name.</remarks>
public sealed record ProviderIdentity(string Issuer, string Subject);

/// <summary>Takes the word of an identity provider as the first step of a sign-in.</summary>
public sealed class SignInByProvider(AccountDb db, DemonstrationAccounts demonstration, TimeProvider clock)
{
    /// <summary>The account that was linked with this identity; null where none was, or it has ended.</summary>
    public async Task<long?> RunAsync(ProviderIdentity who, Place place, CancellationToken stop)
    {
        var account = await db.ProviderLinks.Where(l => l.Issuer == who.Issuer && l.Subject == who.Subject)
            .Join(db.Users.Where(u => u.EndedAt == null && (!u.IsDemonstration || demonstration.AreLetIn)), l => l.AccountId, u => u.Id, (l, u) => (long?)u.Id)
            .SingleOrDefaultAsync(stop);
        db.Events.Add(new AccountEventRow
        {
            AccountId = account,
            At = Instant.FromDateTimeOffset(clock.GetUtcNow()),
            Kind = account is null ? AccountEvent.SignInRefused : AccountEvent.SignedIn,
            Detail = "by an identity provider",
            Address = place.Address,
        });
        await db.SaveChangesAsync(stop);
        return account;
    }
}
