using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>A visit as a calendar outside sees it: when and where, nothing of whom it is to.</summary>
/// <param name="Id">Names it for ever.</param>
/// <param name="Start">In the feed's zone.</param>
/// <param name="Minutes">Elapsed minutes; above 0.</param>
/// <param name="Place">A place's code, or what kind of place it is.</param>
/// <param name="Sequence">How often day, time, place or person changed.</param>
/// <param name="IsCancelled">Called off or removed: it stays in the feed, so that calendars which hold it take it out.</param>
/// <param name="RecordedAt">When it was first written down.</param>
public sealed record FeedVisit(Guid Id, LocalDateTime Start, int Minutes, string Place, int Sequence, bool IsCancelled, Instant RecordedAt);

/// <summary>Visits as a calendar to subscribe to: RFC 5545, with the properties of RFC 7986.</summary>
public static class VisitFeed
{
    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss");
    private static readonly InstantPattern Utc = InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'");

    /// <summary>The whole calendar: the same visits give the same text, to the octet.</summary>
    /// <param name="name">What the calendar is called where it is shown.</param>
    /// <param name="zone">The zone in which the visits' times are meant.</param>
    /// <param name="visits">In the order in which they are to stand.</param>
    public static string Write(string name, DateTimeZone zone, IReadOnlyList<FeedVisit> visits)
    {
        var text = new StringBuilder(512 + visits.Count * 256);
        string[] head =
        [
            "BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//TeamCircle//Visits//EN", $"NAME:{ContentLine.Text(name)}", $"X-WR-CALNAME:{ContentLine.Text(name)}",
            "REFRESH-INTERVAL;VALUE=DURATION:PT1H", "X-PUBLISHED-TTL:PT1H",
        ];
        foreach (var line in head)
            ContentLine.Add(text, line);
        var spans = visits.Select(v => WallTime.Span(v.Start, v.Minutes, zone)).ToList();
        if (visits.Count > 0)
            ZoneBlock.Add(text, zone, spans.Min(s => s.Start), spans.Max(s => s.End));
        foreach (var visit in visits)
            AddVisit(text, zone, visit);
        ContentLine.Add(text, "END:VCALENDAR");
        return text.ToString();
    }

    private static void AddVisit(StringBuilder text, DateTimeZone zone, FeedVisit visit)
    {
        string[] lines =
        [
            "BEGIN:VEVENT",
            $"UID:{visit.Id:D}",
            $"DTSTAMP:{Utc.Format(visit.RecordedAt)}",
            $"DTSTART;TZID={zone.Id}:{Local.Format(visit.Start)}",
            $"DURATION:PT{visit.Minutes.ToString(CultureInfo.InvariantCulture)}M", // an end could fall into an hour that comes twice
            $"SEQUENCE:{visit.Sequence.ToString(CultureInfo.InvariantCulture)}",
            $"STATUS:{(visit.IsCancelled ? "CANCELLED" : "CONFIRMED")}",
            "SUMMARY:Visit",
            $"LOCATION:{ContentLine.Text(visit.Place)}",
            "CLASS:PRIVATE",
            "END:VEVENT",
        ];
        foreach (var line in lines)
            ContentLine.Add(text, line);
    }
}
