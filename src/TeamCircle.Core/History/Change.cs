using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NodaTime;

namespace TeamCircle.Core.History;

/// <summary>One change of one row as it is sealed: everything that the trail says, except the number of the transaction,
/// which means something to one server only.</summary>
/// <param name="At">To the microsecond, as the database keeps it.</param>
/// <param name="Before">The row as the database writes it in JSON; null for a new row.</param>
/// <param name="After">The same; null for a deleted row.</param>
public sealed record Change(
    int AgencyId, long Id, Instant At, int PersonId, string Ground, Guid? OperationId, int? LearnerId,
    string TableName, string RowKey, string Act, string? Before, string? After)
{
    private const int Missing = -1;

    /// <summary>SHA-256 over a zero byte and the fields, each as its length (four bytes, the highest first) and its UTF-8 text;
    /// a missing one has the length -1.</summary>
    public byte[] Hash()
    {
        string?[] fields =
        [
            Text(AgencyId), Text(Id), Text(At.ToUnixTimeTicks() / 10), Text(PersonId), Ground, OperationId?.ToString("D"), LearnerId is { } learner ? Text(learner) : null,
            TableName, RowKey, Act, Before, After,
        ];
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData([HashTree.Leaf]);
        Span<byte> length = stackalloc byte[sizeof(int)];
        foreach (var field in fields)
        {
            var bytes = field is null ? [] : Encoding.UTF8.GetBytes(field);
            BinaryPrimitives.WriteInt32BigEndian(length, field is null ? Missing : bytes.Length);
            hash.AppendData(length);
            hash.AppendData(bytes);
        }
        return hash.GetHashAndReset();
    }

    /// <summary>Which row it is about, for a person who looks for it; holds no name.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"change {Id} ({Act} of {TableName} {RowKey} by person {PersonId} at {At:uuuu-MM-dd HH:mm:ss'Z'})");

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
