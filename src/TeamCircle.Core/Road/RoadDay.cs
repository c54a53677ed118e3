using NodaTime;

namespace TeamCircle.Core.Road;

/// <summary>One visit to which somebody drove.</summary>
/// <param name="Place">Null where the place is not known.</param>
/// <param name="Learner">The learner's short code.</param>
public sealed record RoadStop(LocalTime Starts, LocalTime Ends, int? Place, string Learner);

/// <summary>From one place to the next.</summary>
/// <param name="From">Null where that place is not known; so is the other.</param>
/// <param name="Minutes">Null where the way is not in the table.</param>
/// <param name="Tenths">Tenths of the agency's unit; null where the distance is not in the table.</param>
public sealed record RoadLeg(int? From, int? To, int? Minutes, int? Tenths);

/// <summary>The ways of one person on one day (docs/rules.md, part 21).</summary>
/// <remarks>
/// <para>In the order of the visits, from the person's start and back to it where they named one. Two visits at one place have no way between them. What the
/// table does not know is listed as unknown and never guessed: the sums are those of the known ways.</para>
/// <para>Minutes are the table's, from door to door: nobody measures a person's driving.</para>
/// </remarks>
public sealed record RoadDay(LocalDate On, IReadOnlyList<RoadStop> Stops, IReadOnlyList<RoadLeg> Legs)
{
    /// <summary>Whole minutes of the ways whose minutes are known.</summary>
    public int Minutes => Legs.Sum(l => l.Minutes ?? 0);

    /// <summary>Tenths of the unit of the ways whose distance is known.</summary>
    public int Tenths => Legs.Sum(l => l.Tenths ?? 0);

    /// <summary>Ways of which the minutes or the distance is not known.</summary>
    public IEnumerable<RoadLeg> Unknown => Legs.Where(l => l.Minutes is null || l.Tenths is null);

    /// <param name="stops">In the order in which they were driven to.</param>
    /// <param name="start">Where the day begins and ends; null: at its first visit and at its last.</param>
    public static RoadDay Of(LocalDate on, IReadOnlyList<RoadStop> stops, int? start, RoadTable table)
    {
        if (stops.Count == 0)
            return new(on, [], []);
        var places = stops.Select(s => s.Place);
        List<int?> way = start is null ? [.. places] : [start, .. places, start];
        return new(on, stops, [.. way.Zip(way.Skip(1)).Where(w => w.First is null || w.First != w.Second).Select(w => LegOf(w.First, w.Second, table))]);
    }

    private static RoadLeg LegOf(int? from, int? to, RoadTable table) =>
        from is { } a && to is { } b && table.Between(a, b) is { } way ? new(from, to, way.Minutes, way.Tenths) : new(from, to, null, null);
}
