using System.Text;
using NodaTime;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Core.Tests.Calendar;

public sealed class VisitFeedTests
{
    private static readonly DateTimeZone Pacific = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];
    private static readonly Instant Recorded = Instant.FromUtc(2026, 8, 20, 15, 4, 5);

    private static FeedVisit Visit(LocalDateTime start, int minutes = 30, string place = "E1", bool off = false, int sequence = 0) =>
        new(Guid.CreateVersion7(), start, minutes, place, sequence, off, Recorded);

    private static CalendarReader.Component Written(DateTimeZone zone, params FeedVisit[] visits) =>
        CalendarReader.Read(Encoding.UTF8.GetBytes(VisitFeed.Write("Visits", zone, visits)));

    private static string Folded(string line)
    {
        var text = new StringBuilder();
        ContentLine.Add(text, line);
        return text.ToString();
    }

    // RFC 5545, section 3.1: "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break."
    [Fact]
    public void Line_of_75_octets_stays_whole_and_the_76th_begins_a_folded_one()
    {
        var line = "DESCRIPTION:" + new string('x', 63);

        Assert.Equal(line + "\r\n", Folded(line));
        Assert.Equal(line + "\r\n y\r\n", Folded(line + "y"));
        Assert.Equal(line + "\r\n " + new string('y', 74) + "\r\n z\r\n", Folded(line + new string('y', 74) + "z"));
    }

    // "Note: It is possible for very simple implementations to generate improperly folded lines in the middle of a UTF-8 multi-octet sequence."
    [Theory]
    [InlineData("é")]
    [InlineData("縁")]
    [InlineData("🌿")]
    public void Character_of_several_octets_is_never_split(string character)
    {
        for (var shift = 0; shift < 5; shift++)
        {
            var line = "X:" + new string('a', shift) + string.Concat(Enumerable.Repeat(character, 200));

            Assert.Equal([line], CalendarReader.Unfold(Encoding.UTF8.GetBytes(Folded(line)))); // refuses long lines and broken characters
        }
    }

    // Section 3.1's own example of a fold: unfolding gives the line back whatever the white space.
    [Fact]
    public void Reader_unfolds_as_the_standard_shows() =>
        Assert.Equal(["DESCRIPTION:This is a long description that exists on a long line."], CalendarReader.Unfold(
            Encoding.UTF8.GetBytes("DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n")));

    [Theory]
    [InlineData("a\nb", "one line break")]
    [InlineData("X:aaaa\r\nY:b", "no break at the end")]
    public void Reader_refuses_lines_that_do_not_end_as_they_must(string text, string _) =>
        Assert.Throws<FormatException>(() => CalendarReader.Unfold(Encoding.UTF8.GetBytes(text)).ToList());

    // Section 3.3.11: "A BACKSLASH character MUST be escaped with another BACKSLASH; a COMMA with a BACKSLASH; a SEMICOLON with a BACKSLASH.
    // However, a COLON character in a property value SHALL NOT be escaped."
    [Theory]
    [InlineData("Project XYZ Final Review\nConference Room - 3B\nCome Prepared.", @"Project XYZ Final Review\nConference Room - 3B\nCome Prepared.")]
    [InlineData(@"a\b", @"a\\b")]
    [InlineData("a;b,c:d\"e", @"a\;b\,c:d""e")]
    [InlineData("one\r\ntwo\rthree", @"one\ntwo\nthree")]
    [InlineData("bell\u0007 and tab\t", "bell and tab\t")]
    public void Text_is_escaped_as_the_standard_asks(string text, string written) => Assert.Equal(written, ContentLine.Text(text));

    [Fact]
    public void Any_text_comes_back_as_it_was()
    {
        var seed = Random.Shared.Next();
        var random = new Random(seed);
        string[] letters = ["a", "\\", ";", ",", "\n", ":", "é", "🌿", "n", "\"", " "];
        for (var round = 0; round < 300; round++)
        {
            var text = string.Concat(Enumerable.Range(0, random.Next(1, 120)).Select(_ => letters[random.Next(letters.Length)]));
            var calendar = Written(Pacific, Visit(new(2026, 10, 2, 9, 30), place: text));

            Assert.True(text == CalendarReader.Text(calendar.Parts.Single(p => p.Name == "VEVENT")["LOCATION"].Value), $"seed {seed}: {text}");
        }
    }

    [Fact]
    public void Visit_is_a_time_a_place_and_the_word_visit()
    {
        var visit = Visit(new(2026, 10, 2, 9, 30), sequence: 3);
        var calendar = Written(Pacific, visit);
        var shown = calendar.Parts.Single(p => p.Name == "VEVENT");

        Assert.Equal(["UID", "DTSTAMP", "DTSTART", "DURATION", "SEQUENCE", "STATUS", "SUMMARY", "LOCATION", "CLASS"], shown.Lines.Select(l => l.Name));
        Assert.Equal((visit.Id.ToString(), "20260820T150405Z", "3", "CONFIRMED"), (shown["UID"].Value, shown["DTSTAMP"].Value, shown["SEQUENCE"].Value, shown["STATUS"].Value));
        Assert.Equal(("America/Los_Angeles", "20261002T093000", "PT30M"), (shown["DTSTART"].Parameters["TZID"], shown["DTSTART"].Value, shown["DURATION"].Value));
        Assert.Equal(("Visit", "E1"), (shown["SUMMARY"].Value, shown["LOCATION"].Value));
        Assert.Equal(("DURATION", "PT1H"), (calendar["REFRESH-INTERVAL"].Parameters["VALUE"], calendar["REFRESH-INTERVAL"].Value));
    }

    [Fact]
    public void What_is_off_stays_in_the_feed_as_cancelled() =>
        Assert.Equal(["CANCELLED", "CONFIRMED"], Written(Pacific, Visit(new(2026, 10, 2, 9, 30), off: true), Visit(new(2026, 10, 3, 9, 30)))
            .Parts.Where(p => p.Name == "VEVENT").Select(p => p["STATUS"].Value));

    [Fact]
    public void Feed_without_visits_is_a_calendar_all_the_same() => Assert.Empty(Written(Pacific).Parts);

    [Theory]
    [InlineData("America/Los_Angeles")]
    [InlineData("America/Phoenix")]      // no clock changes
    [InlineData("Europe/Dublin")]        // whose winter is the exception
    [InlineData("Australia/Lord_Howe")]  // clocks move by half an hour
    [InlineData("Africa/Casablanca")]    // changes by the moon
    public void Zone_is_described_so_that_every_day_of_two_years_and_every_hour_around_a_change_is_the_instant_it_is(string id)
    {
        var zone = DateTimeZoneProviders.Tzdb[id];
        var first = new LocalDateTime(2026, 1, 1, 0, 30);
        bool IsNearChange(LocalDateTime time) => zone.GetUtcOffset(time.PlusDays(-1).InZoneLeniently(zone).ToInstant()) != zone.GetUtcOffset(time.PlusDays(1).InZoneLeniently(zone).ToInstant());
        var visits = Enumerable.Range(0, 2 * 365 * 24).Select(h => first.PlusHours(h)).Where(t => t.Hour == 9 || IsNearChange(t))
            .Where(t => zone.MapLocal(t).Count == 1).Select(t => Visit(t)).ToArray();

        var calendar = Written(zone, visits);

        Assert.Equal(visits.Select(v => v.Start.InZoneStrictly(zone).ToInstant()),
            calendar.Parts.Where(p => p.Name == "VEVENT").Select(p => CalendarReader.Instant(calendar, p["DTSTART"])));
    }

    [Fact]
    public void Visit_over_a_clock_change_keeps_its_length()
    {
        // Clocks go back at 2:00 on 1 November 2026: 90 minutes from 0:45 end at 1:15 for the second time, which no local end could say.
        var calendar = Written(Pacific, Visit(new(2026, 11, 1, 0, 45), 90));

        Assert.Equal("PT90M", calendar.Parts.Single(p => p.Name == "VEVENT")["DURATION"].Value);
    }
}
