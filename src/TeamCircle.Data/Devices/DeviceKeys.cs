using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;

namespace TeamCircle.Data.Devices;

/// <summary>Keys to what devices keep. The database holds them under the portal's own protection only.</summary>
public sealed class DeviceKeys(IDataProtectionProvider protection)
{
    /// <summary>In bytes: for AES-GCM with 256 bits.</summary>
    public const int Length = 32;

    private readonly IDataProtector _protector = protection.CreateProtector("TeamCircle.DeviceKeys");

    internal string Make() => _protector.Protect(Convert.ToBase64String(RandomNumberGenerator.GetBytes(Length)));

    /// <returns>Base64.</returns>
    /// <exception cref="CryptographicException">The portal's protection keys are lost.</exception>
    internal string Open(string kept) => _protector.Unprotect(kept);
}
