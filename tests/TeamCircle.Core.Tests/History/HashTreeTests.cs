using System.Security.Cryptography;
using NodaTime;
using TeamCircle.Core.History;

namespace TeamCircle.Core.Tests.History;

public sealed class HashTreeTests
{
    // The leaves and roots that the reference implementation of RFC 6962 is tested with.
    private static readonly string[] Leaves =
        ["", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f"];

    [Theory]
    [InlineData(0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")]
    [InlineData(1, "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d")]
    [InlineData(2, "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125")]
    [InlineData(3, "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77")]
    [InlineData(4, "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7")]
    [InlineData(5, "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4")]
    [InlineData(6, "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef")]
    [InlineData(7, "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c")]
    [InlineData(8, "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328")]
    public void Root_matches_the_published_one(int leaves, string root)
    {
        var hashes = Leaves.Take(leaves).Select(leaf => SHA256.HashData([HashTree.Leaf, .. Convert.FromHexString(leaf)]));

        Assert.Equal(root, Convert.ToHexStringLower(HashTree.Root(hashes)));
    }

    [Fact]
    public void Every_field_of_a_change_is_in_its_hash()
    {
        var change = new Change(1, 2, Instant.FromUnixTimeSeconds(3), 4, "own work", Guid.Parse("01900000-0000-7000-8000-000000000000"), 5, "visits", "6", "update", "{}", "{}");
        Change[] others =
        [
            change with { AgencyId = 9 }, change with { Id = 9 }, change with { At = change.At.PlusTicks(10) }, change with { PersonId = 9 },
            change with { Ground = "own wor" }, change with { OperationId = null }, change with { LearnerId = null }, change with { LearnerId = 9 },
            change with { TableName = "visitss" }, change with { RowKey = "" }, change with { Act = "insert" },
            change with { Before = null }, change with { After = null }, change with { Before = "", After = "{}{}" },
        ];

        Assert.Equal(others.Length + 1, others.Append(change).Select(c => Convert.ToHexString(c.Hash())).Distinct().Count());
    }
}
