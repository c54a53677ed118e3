using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace TeamCircle.Data.Account;

/// <summary>A random value that only its holder knows: the key of a sign-in, the tail of a link. We keep its hash.</summary>
/// <param name="Text">43 letters, digits, dashes and underscores: 32 random bytes.</param>
/// <param name="Hash">SHA-256. A hash without salt is enough for 256 random bits: there is nothing to guess.</param>
internal sealed record Secret(string Text, byte[] Hash)
{
    public static Secret Make() => Of(Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32)));

    /// <summary>Whatever was sent to us as a secret; one that we never made has a hash that nothing has.</summary>
    public static Secret Of(string text) => new(text, SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
