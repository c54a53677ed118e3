using System.Buffers.Binary;
using System.Security.Cryptography;
using NodaTime;

namespace TeamCircle.Core.History;

/// <summary>What is sealed of a block of changes.</summary>
/// <param name="SealedAt">To the microsecond.</param>
/// <param name="Changes">How many.</param>
/// <param name="Root">Of the tree over the changes' hashes, in order of their ids.</param>
/// <param name="Previous">The hash of the agency's block before; <see cref="Beginning"/> for the first.</param>
public sealed record Seal(int AgencyId, Instant SealedAt, int Changes, byte[] Root, byte[] Previous)
{
    /// <summary>Stands for the block before the first.</summary>
    public static byte[] Beginning => new byte[SHA256.HashSizeInBytes];

    /// <summary>SHA-256 over agency, time in microseconds, number of changes (each as eight bytes, the highest first), root and previous.</summary>
    public byte[] Hash()
    {
        var numbers = new byte[3 * sizeof(long)];
        BinaryPrimitives.WriteInt64BigEndian(numbers, AgencyId);
        BinaryPrimitives.WriteInt64BigEndian(numbers.AsSpan(sizeof(long)), SealedAt.ToUnixTimeTicks() / 10);
        BinaryPrimitives.WriteInt64BigEndian(numbers.AsSpan(2 * sizeof(long)), Changes);
        return SHA256.HashData([.. numbers, .. Root, .. Previous]);
    }

    /// <summary>The code that only who holds the key can make: HMAC with SHA-256 over a block's hash.</summary>
    public static byte[] Code(byte[] key, byte[] hash) => HMACSHA256.HashData(key, hash);
}
