using NodaTime;

namespace TeamCircle.Core.Time;

/// <summary>Dates as day numbers, for sums over many days: day 0 is 1 January of year 1, a Monday.</summary>
public static class Day
{
    /// <summary>Stands for "no day"; never a date.</summary>
    public const int None = -1;

    /// <summary>The number of an ISO date of the years 1 to 9999.</summary>
    public static int Of(LocalDate date) => date.ToDateOnly().DayNumber;

    /// <summary>The date of a day number that is not <see cref="None"/>.</summary>
    public static LocalDate Date(int day) => LocalDate.FromDateOnly(DateOnly.FromDayNumber(day));

    /// <summary>0 for Monday to 6 for Sunday.</summary>
    internal static int Weekday(int day) => (int)((uint)day % 7);
}
