using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Core.Time;

/// <summary>Days and times of the day as they stand in sentences.</summary>
public static class ClockWords
{
    private static readonly LocalDatePattern DayPattern = LocalDatePattern.CreateWithInvariantCulture("d MMMM");
    private static readonly LocalDatePattern WeekdayPattern = LocalDatePattern.CreateWithInvariantCulture("dddd d MMMM");
    private static readonly LocalTimePattern TimePattern = LocalTimePattern.CreateWithInvariantCulture("h:mm tt");

    /// <summary>14 September</summary>
    public static string Day(LocalDate date) => DayPattern.Format(date);

    /// <summary>Monday 14 September</summary>
    public static string Weekday(LocalDate date) => WeekdayPattern.Format(date);

    /// <summary>9:30 am</summary>
    public static string Time(LocalTime time) => TimePattern.Format(time).ToLowerInvariant();

    /// <summary>9:30 to 10:15 am</summary>
    public static string Times(LocalTime start, LocalTime end) =>
        start.Hour < 12 == end.Hour < 12 ? $"{Time(start)[..^3]} to {Time(end)}" : $"{Time(start)} to {Time(end)}";
}
