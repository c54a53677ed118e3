using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Things;

/// <summary>A number of days, once by the calendar and once by the school's own.</summary>
/// <param name="School">Days with school of any term: neither closed as published nor closed without notice (docs/rules.md, part 1).</param>
public readonly record struct DayCount(int Calendar, int School)
{
    /// <summary>Both ends belong to it; nothing where the range is empty.</summary>
    public static DayCount Of(DateRange days, SchoolCalendar calendar) => new(days.Length, days.IsEmpty ? 0 : calendar.For(LineTerms.Both).Instructional(days));
}

/// <summary>How long a thing was waited for, and how long it was out of order.</summary>
public static class ThingDays
{
    /// <summary>From the day after the promise to the day on which it was there, or to today: promised on Monday and there on Tuesday is one day. None where it was
    /// there before it was promised.</summary>
    public static DayCount Waited(LocalDate promisedOn, LocalDate? inPlaceOn, LocalDate today, SchoolCalendar calendar) =>
        DayCount.Of(DateRange.Of(promisedOn.PlusDays(1), inPlaceOn ?? today), calendar);

    /// <summary>From the day on which it broke to the last day without it, both of them among them; to today while it lasts.</summary>
    public static DayCount OutOfOrder(Outage outage, LocalDate today, SchoolCalendar calendar) =>
        DayCount.Of(DateRange.Of(outage.From, outage.Until ?? LocalDate.Max(outage.From, today)), calendar);
}
