using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;

namespace TeamCircle.Data.Mail;

/// <summary>Tails of links that wait in the outbox: the database holds them under the portal's own protection, and only until the mail has gone.</summary>
public sealed class MailSecrets(IDataProtectionProvider protection)
{
    private readonly IDataProtector _protector = protection.CreateProtector("TeamCircle.MailSecrets");

    internal string Keep(string key) => _protector.Protect(key);

    /// <summary>Null where the portal's protection keys are lost.</summary>
    internal string? Open(string kept)
    {
        try
        {
            return _protector.Unprotect(kept);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
