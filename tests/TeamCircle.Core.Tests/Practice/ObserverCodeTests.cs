using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Tests.Practice;

/// <summary>The codes of these ids were worked out by the device's own script (observer-code.js).</summary>
public sealed class ObserverCodeTests
{
    [Theory]
    [InlineData("0192f3a1-7b2c-7def-8a1b-0123456789ab", "2PF2DB")]
    [InlineData("00000000-0000-7000-8000-0000ffffffff", "ZZZZZZ")]
    [InlineData("ffffffff-ffff-7fff-bfff-ffff00000000", "000000")]
    public void Code_is_the_last_thirty_bits_of_the_id(string id, string code) => Assert.Equal(code, ObserverCode.Of(Guid.Parse(id)));

    [Theory]
    [InlineData("2pf 2db", "2PF2DB")]
    [InlineData(" 2PF-2DB ", "2PF2DB")]
    [InlineData("oil oil", "011011")]
    [InlineData("2PF2D", null)]
    [InlineData("2PF2DBB", null)]
    [InlineData("2PF2DU", null)]
    [InlineData("", null)]
    [InlineData(null, null)]
    public void Code_is_read_as_people_write_it(string? typed, string? code) => Assert.Equal(code, ObserverCode.Read(typed));

    [Fact]
    public void What_is_written_is_read_again()
    {
        var seed = Environment.TickCount;
        TestContext.Current.TestOutputHelper!.WriteLine($"seed {seed}");
        var random = new Random(seed);
        var bytes = new byte[16];
        for (var i = 0; i < 1_000; i++)
        {
            random.NextBytes(bytes);
            var code = ObserverCode.Of(new Guid(bytes, bigEndian: true));
            Assert.Equal(code, ObserverCode.Read($"{code[..3].ToLowerInvariant()} {code[3..]}"));
        }
    }
}
