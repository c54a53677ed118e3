using NodaTime;
using TeamCircle.Core.Road;

namespace TeamCircle.Core.Tests.Road;

/// <summary>Minutes and distances of a day, added by hand.</summary>
public sealed class RoadDayTests
{
    private const int Base = 1, A = 2, B = 3, C = 4;

    private static readonly LocalDate Monday = new(2026, 10, 5);

    /// <summary>Base to A 15 minutes, 8.4; A to B 20, 11.7, and back 25, 12.1; A to C 10 minutes, distance not entered.</summary>
    private static readonly RoadTable Table = new(new Dictionary<(int, int), RoadWay>
    {
        [(Base, A)] = new(15, 84),
        [(A, B)] = new(20, 117),
        [(B, A)] = new(25, 121),
        [(A, C)] = new(10, null),
    });

    private static RoadDay Day(int? start, params int?[] places) =>
        RoadDay.Of(Monday, [.. places.Select((p, i) => new RoadStop(new(9 + i, 0), new(9 + i, 45), p, "TF07"))], start, Table);

    [Fact]
    public void Day_from_the_base_to_A_to_B_to_A_and_back()
    {
        var day = Day(Base, A, B, A);

        // 15 + 20 + 25 + 15 minutes; 8.4 + 11.7 + 12.1 + 8.4
        Assert.Equal((75, 406), (day.Minutes, day.Tenths));
        Assert.Equal([(Base, A), (A, B), (B, A), (A, Base)], day.Legs.Select(l => (l.From!.Value, l.To!.Value)));
        Assert.Empty(day.Unknown);
    }

    [Fact]
    public void Day_without_a_start_begins_at_its_first_visit()
    {
        var day = Day(null, A, B);

        Assert.Equal((20, 117), (day.Minutes, day.Tenths));
        Assert.Empty(Day(null, A).Legs);
    }

    [Fact]
    public void Two_visits_at_one_place_have_no_way_between_them()
    {
        Assert.Equal((30, 168), (Day(Base, A, A, A).Minutes, Day(Base, A, A, A).Tenths)); // 15 there and 15 back
        Assert.Empty(Day(A, A).Legs);
        Assert.Empty(Day(Base).Legs);
    }

    [Fact]
    public void What_the_table_does_not_know_is_listed_and_never_guessed()
    {
        var day = Day(Base, A, C, null, A);

        // Base to A is known; A to C has no distance; C to somewhere, and from there to A, are not known; A to the base is known.
        Assert.Equal((15 + 10 + 15, 84 + 84), (day.Minutes, day.Tenths));
        Assert.Equal([(A, C), (C, null), (null, A)], day.Unknown.Select(l => ((int?)l.From, l.To)));
        Assert.Equal([10, null, null], day.Unknown.Select(l => l.Minutes));
        Assert.Equal(2, Day(null, null, null, A).Legs.Count); // nobody knows that two unknown places are one
    }
}
