using TeamCircle.Core.Monitoring;

namespace TeamCircle.Core.Tests.Monitoring;

public sealed class SampleDrawTests
{
    // The first numbers of SplitMix64 from the seed 1234567 as they are widely printed beside its reference code; from memory, and computed anew with
    // exact integers apart from this code.
    [Fact]
    public void Generator_gives_the_known_numbers()
    {
        ulong state = 1234567;
        Assert.Equal(
            [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821],
            Enumerable.Range(0, 5).Select(_ => SampleDraw.Next(ref state)));
    }

    /// <summary>Worked by hand with the numbers above, from eight files 1 to 8: 6457827717110365317 mod 8 = 5 changes places 1 and 6 (6 2 3 4 5 1 7 8),
    /// 3203168211198807973 mod 7 = 2 changes places 2 and 4 (6 4 3 2 5 1 7 8), 9817491932198370423 mod 6 = 3 changes places 3 and 6 (6 4 1 2 5 3 7 8).</summary>
    [Fact]
    public void Shuffle_is_the_one_that_is_described() => Assert.Equal([6, 4, 1], SampleDraw.Of([1, 2, 3, 4, 5, 6, 7, 8], 3, 1234567));

    [Fact]
    public void Same_seed_gives_the_same_files_and_each_at_most_once()
    {
        int[] files = [.. Enumerable.Range(1, 1000)];

        var drawn = SampleDraw.Of(files, 40, 20261126);

        Assert.Equal(drawn, SampleDraw.Of(files, 40, 20261126));
        Assert.Equal(40, drawn.Distinct().Count());
        Assert.NotEqual(drawn, SampleDraw.Of(files, 40, 20261127));
        Assert.Equal(drawn.Take(10), SampleDraw.Of(files, 10, 20261126));
    }

    [Fact]
    public void More_files_than_there_are_gives_all()
    {
        Assert.Equal([1, 2, 3], SampleDraw.Of([1, 2, 3], 10, 5).Order());
        Assert.Empty(SampleDraw.Of([], 10, 5));
    }

    /// <summary>60,000 draws of one of six files: each comes up 10,000 times but for chance (five standard deviations are 456).</summary>
    [Fact]
    public void Every_file_is_as_likely_as_any_other()
    {
        var counts = new int[6];
        for (var seed = 0; seed < 60_000; seed++)
            counts[SampleDraw.Of([0, 1, 2, 3, 4, 5], 1, seed)[0]]++;
        Assert.All(counts, c => Assert.InRange(c, 10_000 - 456, 10_000 + 456));
    }
}
