using System.Text.Json;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Progress;

public sealed class ProportionTests
{
    private static readonly JsonElement Intervals = Published.Read("proportion_ci.json");

    public static TheoryData<string> Ids() => [.. Intervals.EnumerateArray().Select(i => i.GetProperty("id").GetString()!)];

    [Fact]
    public void Published_intervals_are_all_there() => Assert.Equal(10, Ids().Count);

    [Theory]
    [MemberData(nameof(Ids))]
    public void Wilson_interval_is_as_published(string id)
    {
        var published = Intervals.EnumerateArray().Single(i => i.GetProperty("id").GetString() == id);
        var share = Proportion.Of(published.At("x").GetInt32(), published.At("n").GetInt32(), published.At("conf").GetDouble());

        Published.Closely(published.At("wilson")[0], share.Low);
        Published.Closely(published.At("wilson")[1], share.High);
    }

    // Newcombe 1998, Statistics in Medicine 17, 857–872, table I: four decimals (81/263 printed 0.2553 to 0.3662)
    [Fact]
    public void Wilson_interval_is_as_Newcombe_prints_it()
    {
        var share = Proportion.Of(81, 263);

        Assert.Equal((0.2553, 0.3662), (Math.Round(share.Low.Value!.Value, 4), Math.Round(share.High.Value!.Value, 4)));
    }

    // Newcombe 1998, Statistics in Medicine 17, 873–890, table II, method 10: printed values from memory, four decimals
    [Theory]
    [InlineData(56, 70, 48, 80, 0.0524, 0.3339)]
    [InlineData(9, 10, 3, 10, 0.1705, 0.8090)]
    [InlineData(5, 56, 0, 29, -0.0381, 0.1926)]
    [InlineData(0, 10, 0, 10, -0.2775, 0.2775)]
    public void Difference_of_two_shares_has_Newcombes_interval(int one, int of, int other, int ofOther, double low, double high)
    {
        var difference = Proportion.Of(one, of).Less(Proportion.Of(other, ofOther));

        Assert.Equal((double)one / of - (double)other / ofOther, difference.Value.Value!.Value, 1e-12);
        Assert.Equal(low, difference.Low.Value!.Value, 0.00006);
        Assert.Equal(high, difference.High.Value!.Value, 0.00006);
    }

    [Fact]
    public void Share_of_no_trials_says_so()
    {
        var none = Proportion.Of(0, 0);

        Assert.All([none.Value, none.Low, none.High, none.Less(Proportion.Of(1, 2)).Value, Proportion.Of(1, 2).Less(none).Low],
            figure => Assert.Equal("no trials", figure.Why));
    }

    [Fact]
    public void More_successes_than_trials_are_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.Of(3, 2));

    // PR-01 and PR-02: percent independent of a chain of steps is independent steps of all steps (Autism Plus; AFIRM guide on task analysis)
    [Fact]
    public void Percent_of_the_steps_of_a_chain_is_as_published()
    {
        Assert.Equal(66.7m, new CountOf(8, 12).Percent);
        Assert.Null(new CountOf(0, 0).Percent);
    }
}
