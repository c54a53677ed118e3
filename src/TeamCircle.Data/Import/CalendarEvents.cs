using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>The events of a calendar file (RFC 5545), with the days on which they fall.</summary>
internal static class CalendarEvents
{
    /// <summary>An event without an end in sight is unfolded to so many days at most.</summary>
    private const int MostDays = 2000;

    /// <param name="until">The last day for which events that repeat are unfolded.</param>
    /// <returns>Null where the text is no calendar.</returns>
    public static RawCalendar? Read(string file, string text, LocalDate until)
    {
        try
        {
            if (Ical.Net.Calendar.Load(text) is not { } calendar)
                return null;
            var lines = LinesOf(text);
            return new(file, [.. calendar.Events.Select((e, i) => Event(e, i < lines.Count ? lines[i] : 1, until)).OrderBy(e => e.Line)]);
        }
        catch (Exception e) when (e is ArgumentException or FormatException or System.Runtime.Serialization.SerializationException or InvalidOperationException)
        {
            return null;
        }
    }

    private static RawEvent Event(CalendarEvent one, int line, LocalDate until) =>
        new(line, one.Uid ?? "", one.Summary?.Trim() is { Length: > 0 } name ? name : "Closed", Days(one, until));

    private static List<LocalDate> Days(CalendarEvent one, LocalDate until)
    {
        if (one.Start is not { HasTime: false } start)
            return [];
        var days = new SortedSet<LocalDate>();
        var beyond = new CalDateTime(until.Year, until.Month, until.Day);
        foreach (var occurrence in one.GetOccurrences(start).TakeWhile(o => o.Period.StartTime.LessThanOrEqual(beyond)))
        {
            var first = LocalDate.FromDateOnly(occurrence.Period.StartTime.Date);
            var last = occurrence.Period.EffectiveEndTime is { } end ? LocalDate.FromDateOnly(end.Date).PlusDays(-1) : first;
            for (var day = first; day <= LocalDate.Max(first, last) && days.Count < MostDays; day = day.PlusDays(1))
                days.Add(day);
            if (days.Count >= MostDays)
                break;
        }
        return [.. days];
    }

    private static List<int> LinesOf(string text)
    {
        var lines = text.Split('\n');
        return [.. Enumerable.Range(0, lines.Length).Where(i => lines[i].Trim().Equals("BEGIN:VEVENT", StringComparison.OrdinalIgnoreCase)).Select(i => i + 1)];
    }
}
