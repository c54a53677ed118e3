using System.Buffers.Binary;

namespace TeamCircle.Core.Practice;

/// <summary>
/// The short code on the first person's sheet by which a colleague's device, also one without a network, names the practice that it scores
/// a second time. It is made of the practice's own id, so nobody has to hand it out.
/// </summary>
/// <remarks>
/// Six of 32 digits and letters, without those that are taken for one another in the dim: I and L are read as 1, O as 0 (the alphabet is that
/// of Crockford's Base32, from memory). It stands for the last 30 bits of the id, which are random, and is looked for among the practices of one
/// routine within <see cref="Holds"/> only: two of ten practices share one with a chance of 45 in 2³⁰.
/// </remarks>
public static class ObserverCode
{
    public const int Length = 6;

    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private const int BitsOfLetter = 5;

    /// <summary>Between the starts of the two at the most.</summary>
    public static readonly NodaTime.Duration Holds = NodaTime.Duration.FromHours(12);

    public static string Of(Guid practice)
    {
        var bits = BinaryPrimitives.ReadUInt32BigEndian(practice.ToByteArray(bigEndian: true).AsSpan(12));
        return string.Create(Length, bits, (code, left) =>
        {
            for (var i = Length - 1; i >= 0; i--, left >>= BitsOfLetter)
                code[i] = Letters[(int)(left % Letters.Length)];
        });
    }

    /// <summary>As <see cref="Of"/> writes it: case, spaces and hyphens do not matter. Null where it is none.</summary>
    public static string? Read(string? typed)
    {
        var code = string.Concat((typed ?? "").Where(c => !char.IsWhiteSpace(c) && c != '-').Select(c => char.ToUpperInvariant(c) switch
        {
            'O' => '0',
            'I' or 'L' => '1',
            var letter => letter,
        }));
        return code.Length == Length && code.All(Letters.Contains) ? code : null;
    }
}
