using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;
using NodaTime.TimeZones;

namespace TeamCircle.Core.Calendar;

/// <summary>A time zone as RFC 5545, section 3.6.5, describes it: each stretch between two clock changes by itself, without rules.</summary>
/// <remarks>
/// Stretches are what the tz database says for the years in question, also where a zone's winter is the exception or its rules change.
/// The library's own description gives Dublin an hour too much.
/// </remarks>
internal static class ZoneBlock
{
    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss");

    /// <summary>The zone from the stretch that holds <paramref name="from"/> to the one that holds <paramref name="to"/>.</summary>
    public static void Add(StringBuilder calendar, DateTimeZone zone, Instant from, Instant to)
    {
        ContentLine.Add(calendar, "BEGIN:VTIMEZONE");
        ContentLine.Add(calendar, $"TZID:{zone.Id}");
        foreach (var stretch in zone.GetZoneIntervals(from, to + Duration.Epsilon))
            AddStretch(calendar, zone, stretch);
        ContentLine.Add(calendar, "END:VTIMEZONE");
    }

    private static void AddStretch(StringBuilder calendar, DateTimeZone zone, ZoneInterval stretch)
    {
        var kind = stretch.Savings == Offset.Zero ? "STANDARD" : "DAYLIGHT";
        var before = stretch.HasStart ? zone.GetUtcOffset(stretch.Start - Duration.Epsilon) : stretch.WallOffset;
        // The onset stands in the local time that ends with it; a zone without clock changes has had its own for ever.
        var onset = stretch.HasStart ? stretch.Start.WithOffset(before).LocalDateTime : new LocalDateTime(1970, 1, 1, 0, 0);
        ContentLine.Add(calendar, $"BEGIN:{kind}");
        ContentLine.Add(calendar, $"DTSTART:{Local.Format(onset)}");
        ContentLine.Add(calendar, $"TZOFFSETFROM:{Text(before)}");
        ContentLine.Add(calendar, $"TZOFFSETTO:{Text(stretch.WallOffset)}");
        ContentLine.Add(calendar, $"TZNAME:{ContentLine.Text(stretch.Name)}");
        ContentLine.Add(calendar, $"END:{kind}");
    }

    // Seconds only where there are some: section 3.3.14.
    private static string Text(Offset offset)
    {
        var seconds = Math.Abs(offset.Seconds);
        var text = string.Create(CultureInfo.InvariantCulture, $"{(offset.Seconds < 0 ? '-' : '+')}{seconds / 3600:00}{seconds / 60 % 60:00}");
        return seconds % 60 == 0 ? text : $"{text}{(seconds % 60).ToString("00", CultureInfo.InvariantCulture)}";
    }
}
