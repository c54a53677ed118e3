using NodaTime;

namespace TeamCircle.Core.Time;

/// <summary>A range of days, held as day numbers (<see cref="Day"/>); both ends belong to it.</summary>
/// <param name="First">The first day.</param>
/// <param name="Last">The last day; before <paramref name="First"/> where the range is empty.</param>
public readonly record struct DateRange(int First, int Last)
{
    public static DateRange Of(LocalDate start, LocalDate end) => new(Day.Of(start), Day.Of(end));

    public LocalDate Start => Day.Date(First);

    public LocalDate End => Day.Date(Last);

    /// <summary>Number of days; 0 for an empty range.</summary>
    public int Length => Math.Max(0, Last - First + 1);

    public bool IsEmpty => Last < First;

    public bool Holds(int day) => day >= First && day <= Last;

    public bool Touches(DateRange other) => First <= other.Last && other.First <= Last;

    /// <summary>The days that lie in both; empty where there are none.</summary>
    public DateRange And(DateRange other) => new(Math.Max(First, other.First), Math.Min(Last, other.Last));
}
