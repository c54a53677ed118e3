using TeamCircle.Core.Calendar;

namespace TeamCircle.Core.Tests.Calendar;

public sealed class SideBySideTests
{
    [Fact]
    public void Times_that_only_touch_share_a_column() =>
        Assert.Equal([new(0, 1), new(0, 1), new(0, 1)], SideBySide.Of([(540, 570), (570, 600), (630, 660)]));

    [Fact]
    public void Overlapping_times_stand_side_by_side_and_a_column_is_taken_again_once_it_is_free() =>
        // 9:00 to 10:00 and 9:15 to 9:30 overlap; 9:30 to 9:45 overlaps the first alone; 10:00 stands by itself.
        Assert.Equal([new(0, 2), new(1, 2), new(1, 2), new(0, 1)], SideBySide.Of([(540, 600), (555, 570), (570, 585), (600, 630)]));

    [Fact]
    public void Nothing_needs_no_column() => Assert.Empty(SideBySide.Of([]));

    [Theory]
    [InlineData(600, 630, 540, 570)]
    [InlineData(540, 540, 560, 570)]
    public void Times_out_of_order_or_without_length_are_refused(int start, int end, int nextStart, int nextEnd) =>
        Assert.Throws<ArgumentException>(() => SideBySide.Of([(start, end), (nextStart, nextEnd)]));

    [Fact]
    public void No_two_overlapping_times_ever_share_a_column_and_no_column_is_too_many()
    {
        var seed = Random.Shared.Next();
        var random = new Random(seed);
        for (var round = 0; round < 500; round++)
        {
            var times = Enumerable.Range(0, random.Next(1, 12)).Select(_ => random.Next(0, 60)).Order().Select(s => (Start: s, End: s + random.Next(1, 25))).ToList();
            var lanes = SideBySide.Of(times);

            for (var i = 0; i < times.Count; i++)
            {
                Assert.True(lanes[i].Index < lanes[i].Columns, $"seed {seed}");
                for (var j = 0; j < i; j++)
                    Assert.False(times[i].Start < times[j].End && times[j].Start < times[i].End && lanes[i].Index == lanes[j].Index, $"seed {seed}");
            }
            // The fewest columns: as many as times hold one moment.
            var most = Enumerable.Range(0, 90).Max(moment => times.Count(t => t.Start <= moment && moment < t.End));
            Assert.True(lanes.Max(l => l.Columns) == most, $"seed {seed}");
        }
    }
}
