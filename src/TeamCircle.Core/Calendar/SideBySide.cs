namespace TeamCircle.Core.Calendar;

/// <summary>The column of a time among those with which it overlaps.</summary>
/// <param name="Index">From 0, the leftmost.</param>
/// <param name="Columns">How many columns all times have that overlap each other, directly or through others.</param>
public readonly record struct Lane(int Index, int Columns);

/// <summary>Puts times that overlap into columns side by side, so that none covers another on a timetable.</summary>
public static class SideBySide
{
    /// <summary>The leftmost free column for each time, in the order given.</summary>
    /// <param name="times">Start and end in one unit, oldest start first; the end does not belong to a time.</param>
    /// <returns>One lane a time. The fewest columns with which it can be done.</returns>
    /// <exception cref="ArgumentException">A time starts before the one in front of it, or has no length.</exception>
    public static IReadOnlyList<Lane> Of(IReadOnlyList<(int Start, int End)> times)
    {
        var lanes = new Lane[times.Count];
        var ends = new List<int>();
        var first = 0;
        for (var i = 0; i < times.Count; i++)
        {
            var (start, end) = times[i];
            if (end <= start || (i > 0 && start < times[i - 1].Start))
                throw new ArgumentException("Times need a length and stand in order of their start.", nameof(times));
            if (ends.TrueForAll(e => e <= start))
            {
                Close(lanes, first, i, ends.Count);
                (first, ends) = (i, []);
            }
            var column = ends.FindIndex(e => e <= start);
            if (column < 0)
                (column, ends) = (ends.Count, [.. ends, end]);
            else
                ends[column] = end;
            lanes[i] = new(column, 0);
        }
        Close(lanes, first, times.Count, ends.Count);
        return lanes;
    }

    private static void Close(Lane[] lanes, int first, int end, int columns)
    {
        for (var i = first; i < end; i++)
            lanes[i] = lanes[i] with { Columns = columns };
    }
}
