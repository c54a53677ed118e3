using System.Buffers.Text;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <param name="Id">The credential's own id, in base64url.</param>
public sealed record PasskeyLine(string Id, string Name, Instant Since);

/// <summary>How an account signs in.</summary>
/// <param name="Authenticator">Since when it has an authenticator app; null where it has none.</param>
/// <param name="CodesLeft">Recovery codes that were not used.</param>
/// <param name="Issuers">The identity providers that it is linked with.</param>
/// <param name="HasPassword">False for one that comes by the agency's identity provider alone.</param>
public sealed record Factors(Instant? Authenticator, IReadOnlyList<PasskeyLine> Passkeys, int CodesLeft, bool HasPassword, string Email, IReadOnlyList<string> Issuers)
{
    public bool HasAny => Authenticator is not null || Passkeys.Count > 0;
}

/// <summary>Reads which second factors an account has.</summary>
public sealed class ReadFactors(AccountDb db)
{
    public async Task<Factors> RunAsync(long account, CancellationToken stop)
    {
        var found = await db.Users.Where(u => u.Id == account).Select(u => new
        {
            Since = db.Authenticators.Where(a => a.AccountId == account).Select(a => (Instant?)a.Since).SingleOrDefault(),
            Codes = db.RecoveryCodes.Count(c => c.AccountId == account && c.UsedAt == null),
            HasPassword = u.PasswordHash != null,
            u.Email,
            Issuers = db.ProviderLinks.Where(l => l.AccountId == account).Select(l => l.Issuer).ToList(),
        }).SingleAsync(stop);
        var passkeys = await db.UserPasskeys.AsNoTracking().Where(p => p.UserId == account).ToListAsync(stop);
        return new(found.Since, [.. passkeys.OrderBy(p => p.Data.CreatedAt).Select(p =>
            new PasskeyLine(Base64Url.EncodeToString(p.CredentialId), p.Data.Name ?? "", Instant.FromDateTimeOffset(p.Data.CreatedAt)))], found.Codes, found.HasPassword, found.Email!, found.Issuers);
    }

    /// <summary>What decides whether a first step is enough for an account.</summary>
    /// <param name="StrictFor">The agencies, of those where it stands, in which families need a second factor.</param>
    public sealed record Demands(bool HasFactor, bool IsDemonstration, IReadOnlyList<int> StrictFor);

    public Task<Demands> DemandsAsync(long account, CancellationToken stop) => db.Users.Where(u => u.Id == account).Select(u => new Demands(
        db.Authenticators.Any(a => a.AccountId == account) || db.UserPasskeys.Any(p => p.UserId == account),
        u.IsDemonstration,
        db.SignInRules.Where(r => r.FamiliesNeedSecondFactor && db.Memberships.Any(m => m.AccountId == account && m.AgencyId == r.AgencyId))
            .Select(r => r.AgencyId).ToList())).SingleAsync(stop);
}
