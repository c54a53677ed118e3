using System.Security.Cryptography;

namespace TeamCircle.Core.History;

/// <summary>The Merkle tree of RFC 6962, section 2.1, over hashes of its leaves.</summary>
public static class HashTree
{
    /// <summary>The byte before the content of a leaf, so that no leaf can pass for a node.</summary>
    public const byte Leaf = 0;
    private const byte Node = 1;

    /// <summary>The root; of no leaves the hash of nothing.</summary>
    public static byte[] Root(IEnumerable<byte[]> leaves)
    {
        // Whole subtrees from left to right, the largest first: two of one size become one of the next.
        var whole = new List<(int Size, byte[] Hash)>();
        foreach (var leaf in leaves)
        {
            whole.Add((1, leaf));
            while (whole.Count > 1 && whole[^1].Size == whole[^2].Size)
                Join(whole);
        }
        while (whole.Count > 1)
            Join(whole);
        return whole.Count == 0 ? SHA256.HashData([]) : whole[0].Hash;
    }

    private static void Join(List<(int Size, byte[] Hash)> whole)
    {
        var (left, right) = (whole[^2], whole[^1]);
        whole.RemoveAt(whole.Count - 1);
        whole[^1] = (left.Size + right.Size, SHA256.HashData([Node, .. left.Hash, .. right.Hash]));
    }
}
