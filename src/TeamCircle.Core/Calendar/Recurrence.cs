using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>Visits that recur by a rule of RFC 5545, section 3.3.10.</summary>
/// <remarks>
/// The rule counts in local time; what a clock change skips or repeats is resolved afterwards by <see cref="WallTime"/> (section
/// 3.3.5). The library that works out the rule never sees a time zone. COUNT and UNTIL are kept here, so that it always has an end.
/// </remarks>
public sealed class Recurrence
{
    private readonly string _endless;
    private readonly RecurrenceParts _parts;

    private Recurrence(RecurrenceParts parts) => (_parts, _endless) = (parts, parts.Endless);

    /// <summary>Reads a rule such as <c>FREQ=WEEKLY;BYDAY=MO,WE</c> strictly.</summary>
    /// <returns>The rule, or every problem of it (field "Rule"): a part unknown, given twice, out of its range or without meaning.</returns>
    public static Outcome<Recurrence> Read(string text)
    {
        var parts = RecurrenceParts.Read(text);
        return parts.Value is { } read ? Outcome<Recurrence>.Of(new(read)) : Outcome<Recurrence>.Refused(parts.Problems);
    }

    /// <summary>The local starts whose own days lie from <paramref name="from"/> to <paramref name="to"/>, oldest first.</summary>
    /// <param name="first">DTSTART: counting begins here. It is an occurrence only where the rule makes it one.</param>
    /// <param name="zone">Needed for an UNTIL that is given in UTC.</param>
    /// <param name="to">The last day, which belongs to it.</param>
    public IEnumerable<LocalDateTime> Starts(LocalDateTime first, DateTimeZone zone, LocalDate from, LocalDate to)
    {
        if (first.Date > to)
            return [];
        var recurring = new CalendarEvent
        {
            DtStart = new CalDateTime(first.ToDateTimeUnspecified()),
            RecurrenceRule = new RecurrenceRule(_endless) { Until = new CalDateTime((to + LocalTime.MaxValue).ToDateTimeUnspecified()) },
        };
        return recurring.GetOccurrences(null!, null!)
            .Select(o => LocalDateTime.FromDateTime(o.Period.StartTime.Value))
            .Take(_parts.Count ?? int.MaxValue)
            .TakeWhile(start => _parts.Reaches(start, zone))
            .Where(start => start.Date >= from);
    }
}
