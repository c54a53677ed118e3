using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using OtpNet;

namespace TeamCircle.Data.Account;

/// <summary>The secret that an authenticator app and the portal share, and the codes that come of it (RFC 6238: SHA-1, 30 seconds, six digits).</summary>
public sealed class AuthenticatorSecret
{
    /// <summary>Bytes: as long as the hash, which RFC 4226 recommends.</summary>
    private const int Length = 20;

    /// <summary>A clock that is off by half a minute still gives codes that are taken, and no more than that.</summary>
    private static readonly VerificationWindow Window = new(previous: 1, future: 1);

    private readonly byte[] _bytes;

    private AuthenticatorSecret(byte[] bytes) => _bytes = bytes;

    public static AuthenticatorSecret Make() => new(RandomNumberGenerator.GetBytes(Length));

    /// <param name="bytes">As an app holds them.</param>
    public static AuthenticatorSecret Of(byte[] bytes) => new(bytes);

    /// <summary>In base32, four letters at a time, to be typed into an app that reads no picture.</summary>
    public string Typed => string.Join(' ', Base32Encoding.ToString(_bytes).TrimEnd('=').Chunk(4).Select(four => new string(four)));

    /// <summary>The address that the picture holds; the app shows the portal's name and the account's address beside its codes.</summary>
    public string AddressFor(string email) => new OtpUri(OtpType.Totp, _bytes, email, "TeamCircle").ToString();

    /// <summary>The step whose code this is, counted in 30 seconds from 1970; null where it is no code of now, of the step before or of the one after.</summary>
    public long? StepOf(string code, Instant now) =>
        new Totp(_bytes).VerifyTotp(now.ToDateTimeUtc(), code, out var step, Window) ? step : null;

    public string CodeAt(Instant at) => new Totp(_bytes).ComputeTotp(at.ToDateTimeUtc());

    internal byte[] Seal(IDataProtector protector) => protector.Protect(_bytes);

    /// <exception cref="CryptographicException">The portal's protection keys are lost.</exception>
    internal static AuthenticatorSecret Open(IDataProtector protector, byte[] sealedSecret) => new(protector.Unprotect(sealedSecret));
}

/// <summary>Protects authenticators' secrets: at rest, and in the page on which one is set up.</summary>
public sealed class AuthenticatorSeal(IDataProtectionProvider protection)
{
    private static readonly TimeSpan Offered = TimeSpan.FromHours(1);
    private readonly IDataProtector _kept = protection.CreateProtector("TeamCircle.Authenticators");
    private readonly ITimeLimitedDataProtector _offered = protection.CreateProtector("TeamCircle.AuthenticatorOffers").ToTimeLimitedDataProtector();

    internal byte[] Keep(AuthenticatorSecret secret) => secret.Seal(_kept);

    internal AuthenticatorSecret Open(byte[] kept) => AuthenticatorSecret.Open(_kept, kept);

    /// <summary>For the hidden field of a page that offers the secret to one account; nothing is stored before a code has shown that the app has it.</summary>
    public string Offer(AuthenticatorSecret secret, long account) =>
        Convert.ToBase64String(_offered.Protect([.. BitConverter.GetBytes(account), .. secret.Seal(_kept)], Offered));

    /// <summary>Null where it is none of ours, another account's, or an hour old.</summary>
    public AuthenticatorSecret? OpenOffer(string? offer, long account)
    {
        try
        {
            var bytes = _offered.Unprotect(Convert.FromBase64String(offer ?? ""));
            return BitConverter.ToInt64(bytes, 0) == account ? Open(bytes[sizeof(long)..]) : null;
        }
        catch (Exception e) when (e is CryptographicException or FormatException)
        {
            return null;
        }
    }
}
