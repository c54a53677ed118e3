using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Core.Time;

/// <summary>Times of the day as they stand in sentences.</summary>
public static class ClockWords
{
    private static readonly LocalTimePattern Pattern = LocalTimePattern.CreateWithInvariantCulture("h:mm tt");

    /// <summary>9:30 am</summary>
    public static string Time(LocalTime time) => Pattern.Format(time).ToLowerInvariant();

    /// <summary>9:30 to 10:15 am</summary>
    public static string Times(LocalTime start, LocalTime end) =>
        start.Hour < 12 == end.Hour < 12 ? $"{Time(start)[..^3]} to {Time(end)}" : $"{Time(start)} to {Time(end)}";
}
