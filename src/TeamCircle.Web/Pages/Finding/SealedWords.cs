using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;

namespace TeamCircle.Web.Pages.Finding;

/// <summary>
/// What somebody looked for, as it may stand in an address: sealed, so that a name is in no address, history or log, and yet the page
/// of what was found can be gone back to and loaded again.
/// </summary>
/// <remarks>It opens for the same account alone, and for as long as a sign-in lasts at most.</remarks>
public sealed class SealedWords(IDataProtectionProvider protection)
{
    private static readonly TimeSpan Span = TimeSpan.FromHours(12);

    public string Seal(long account, string typed) => Of(account).Protect(typed, Span);

    /// <summary>Null where it is none of this account's, or too old.</summary>
    public string? Open(long account, string? words)
    {
        if (string.IsNullOrEmpty(words))
            return null;
        try
        {
            return Of(account).Unprotect(words);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    private ITimeLimitedDataProtector Of(long account) => protection.CreateProtector("TeamCircle.Finding", $"{account}").ToTimeLimitedDataProtector();
}
