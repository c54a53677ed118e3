using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Calendar;

public sealed class RecurrenceTests
{
    private static readonly JsonElement Published = Checks.Published.Read("rrule.json");

    public static TheoryData<string> Examples() => [.. Published.EnumerateArray().Select(e => e.GetProperty("id").GetString()!)];

    // RFC 5545, section 3.8.5.3 (Checks/README.md); where the rule never ends, its first occurrences.
    [Theory]
    [MemberData(nameof(Examples))]
    public void Published_example_comes_to_the_same_times(string id)
    {
        var example = Published.EnumerateArray().Single(e => e.GetProperty("id").GetString() == id);
        var expected = example.GetProperty("expected").EnumerateArray().Select(e => e.GetProperty("utc").GetString()!).ToArray();
        var starts = WorkOut(new JsonObject
        {
            ["kind"] = "recurrence",
            ["start"] = Local(example.GetProperty("dtstart").GetString()!),
            ["zone"] = example.GetProperty("tz").GetString(),
            ["minutes"] = 30,
            ["rule"] = example.GetProperty("rrule").GetString(),
            ["except"] = new JsonArray([.. example.GetProperty("exdate").EnumerateArray().Select(e => (JsonNode)Local(e.GetString()!))]),
            ["from"] = "1997-01-01",
            ["to"] = "2008-12-31",
            ["most"] = example.GetProperty("finite").GetBoolean() ? null : expected.Length,
        });

        Assert.Equal(expected, starts.Select(s => InstantPattern.General.Format(OffsetDateTimePattern.ExtendedIso.Parse(s).Value.ToInstant())));
    }

    [Fact]
    public void Published_examples_are_all_there() => Assert.Equal(26, Published.GetArrayLength());

    // RFC 5545, section 3.3.5: of a time that comes twice the first is meant; one that is skipped has the offset before the gap.
    [Theory]
    [InlineData("2007-11-03T01:30", "2007-11-04", "2007-11-04T01:30:00-04:00", "2007-11-04T01:15:00-05:00")]
    [InlineData("2007-03-10T02:30", "2007-03-11", "2007-03-11T03:30:00-04:00", "2007-03-11T04:15:00-04:00")]
    [InlineData("2007-11-03T01:45", "2007-11-04", "2007-11-04T01:45:00-04:00", "2007-11-04T01:30:00-05:00")]
    public void Visit_at_a_clock_change_keeps_its_length(string start, string day, string from, string to)
    {
        var visit = Answer(Case(start, "FREQ=DAILY", day, day))["visits"]!.AsArray().Single()!;

        Assert.Equal((from, to), ((string?)visit["start"], (string?)visit["end"]));
    }

    [Theory]
    [InlineData("20071104T053000Z", 2)]
    [InlineData("20071104T061500Z", 2)]
    [InlineData("20071104T052959Z", 1)]
    [InlineData("20071104T013000", 2)]
    [InlineData("20071103", 1)]
    public void Until_belongs_to_the_rule_and_is_an_instant_where_it_is_given_in_utc(string until, int visits) =>
        Assert.Equal(visits, WorkOut(Case("2007-11-03T01:30", $"FREQ=DAILY;UNTIL={until}", "2007-11-01", "2007-11-30")).Count);

    [Theory]
    [InlineData("FREQ=MONTHLY;BYMONTHDAY=30;BYMONTH=2")]
    [InlineData("FREQ=MONTHLY;BYMONTHDAY=30;BYMONTH=2;COUNT=3")]
    public void Rule_that_never_comes_true_ends(string rule) =>
        Assert.Empty(WorkOut(Case("2000-01-01T09:00", rule, "2000-01-01", "2199-12-31")));

    [Fact]
    public void First_day_that_is_no_occurrence_does_not_count() =>
        Assert.Equal(["2026-09-02", "2026-09-07"], WorkOut(Case("2026-09-01T09:00", "FREQ=WEEKLY;BYDAY=MO,WE;COUNT=2", "2026-09-01", "2026-12-31")).Select(s => s[..10]));

    [Theory]
    [InlineData("", "\"\" is not known here")]
    [InlineData("INTERVAL=2", "FREQ is missing")]
    [InlineData("FREQ=HOURLY", "FREQ must be one of DAILY, WEEKLY, MONTHLY, YEARLY")]
    [InlineData("FREQ=WEEKLY;COLOUR=RED", "\"COLOUR\" is not known here")]
    [InlineData("FREQ=WEEKLY;FREQ=DAILY", "FREQ stands twice")]
    [InlineData("FREQ=WEEKLY;INTERVAL=0", "INTERVAL must be a whole number from 1 to 999")]
    [InlineData("FREQ=WEEKLY;INTERVAL=99999999999", "INTERVAL must be a whole number from 1 to 999")]
    [InlineData("FREQ=WEEKLY;BYDAY=MO,", "BYDAY has \"\"")]
    [InlineData("FREQ=WEEKLY;BYDAY=1MO", "a number before the day belongs to a monthly or yearly rule")]
    [InlineData("FREQ=WEEKLY;BYMONTHDAY=3", "BYMONTHDAY has no meaning in a weekly rule")]
    [InlineData("FREQ=MONTHLY;BYMONTHDAY=0", "BYMONTHDAY must be whole numbers from -31 to 31, without 0")]
    [InlineData("FREQ=MONTHLY;BYSETPOS=1", "BYSETPOS needs another part")]
    [InlineData("FREQ=WEEKLY;UNTIL=Christmas", "UNTIL must be a date or a time")]
    [InlineData("FREQ=WEEKLY;UNTIL=20261218;COUNT=3", "COUNT and UNTIL can't stand together")]
    [InlineData("FREQ=WEEKLY;WKST=1", "WKST must be one of MO")]
    public void Rule_that_cannot_be_meant_is_refused_in_one_line(string rule, string wrong)
    {
        var refused = Assert.Throws<CaseException>(() => Answer(Case("2026-09-01T09:00", rule, "2026-09-01", "2026-09-30")));

        Assert.Equal("rule", refused.Field);
        Assert.Contains(wrong, refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', refused.Message);
    }

    [Theory]
    [InlineData("start", "9 o'clock", "start: must be a local time such as 2026-09-01T09:00")]
    [InlineData("start", "2026-02-30T09:00", "start: must be a local time such as 2026-09-01T09:00")]
    [InlineData("zone", "Tallowfern", "zone: is no zone of the tz database")]
    [InlineData("to", "2026-08-31", "to: must not be before from")]
    [InlineData("minutes", 0, "minutes: must be from 1 to 720, not 0")]
    [InlineData("most", 0, "most: must be from 1 to 100000, not 0")]
    [InlineData("colour", "red", "colour: is not known here")]
    public void Wrong_field_is_named(string field, object value, string message)
    {
        var asked = Case("2026-09-01T09:00", "FREQ=DAILY", "2026-09-01", "2026-09-30");
        asked[field] = JsonValue.Create(value);

        Assert.Equal(message, Assert.Throws<CaseException>(() => Answer(asked)).Message);
    }

    [Theory]
    [InlineData(CadenceUnit.Week, 1, 1, "every week on Monday and Wednesday", IsoDayOfWeek.Wednesday, IsoDayOfWeek.Monday)]
    [InlineData(CadenceUnit.Week, 2, 1, "every 2 weeks on Friday", IsoDayOfWeek.Friday)]
    [InlineData(CadenceUnit.Month, 1, 2, "every month on the second Tuesday", IsoDayOfWeek.Tuesday)]
    [InlineData(CadenceUnit.Month, 3, -1, "every 3 months on the last Friday", IsoDayOfWeek.Friday)]
    public void What_people_say_by_a_form_is_a_rule_and_back(CadenceUnit unit, int every, int which, string words, params IsoDayOfWeek[] days)
    {
        var cadence = new Cadence(unit, every, days, which);
        var rule = cadence.Rule(IsoDayOfWeek.Monday);

        Assert.Empty(cadence.Check());
        Assert.NotNull(Recurrence.Read(rule).Value);
        Assert.Equal(words, cadence.Words);
        Assert.Equal(words, Cadence.Of(rule)!.Words);
    }

    [Fact]
    public void Rule_from_elsewhere_is_no_cadence() => Assert.Null(Cadence.Of("FREQ=YEARLY;BYMONTH=6"));

    [Fact]
    public void Form_without_a_weekday_or_with_two_for_a_month_is_refused()
    {
        Assert.Equal(["Every", "Days"], new Cadence(CadenceUnit.Week, 0, []).Check().Select(p => p.Field));
        Assert.Equal(["Days", "Which"], new Cadence(CadenceUnit.Month, 1, [IsoDayOfWeek.Monday, IsoDayOfWeek.Friday], 5).Check().Select(p => p.Field));
    }

    // Tallowfern's own zone: clocks go back on 1 November 2026. 9:00 stays 9:00, and in UTC it moves by an hour.
    [Fact]
    public void Weekly_series_stays_at_its_local_time_over_a_clock_change()
    {
        var zone = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];
        var rule = Recurrence.Read("FREQ=WEEKLY;BYDAY=FR").Value!;

        var starts = rule.Starts(new(2026, 10, 23, 9, 0), zone, new(2026, 10, 30), new(2026, 11, 6)).ToArray();

        Assert.Equal([new LocalDateTime(2026, 10, 30, 9, 0), new LocalDateTime(2026, 11, 6, 9, 0)], starts);
        Assert.Equal([16, 17], starts.Select(s => WallTime.Resolve(s, zone).ToInstant().InUtc().Hour));
    }

    private static JsonObject Case(string start, string rule, string from, string to) => new()
    {
        ["kind"] = "recurrence",
        ["start"] = start,
        ["zone"] = "America/New_York",
        ["minutes"] = 45,
        ["rule"] = rule,
        ["from"] = from,
        ["to"] = to,
    };

    private static string Local(string basic) => $"{basic[..4]}-{basic[4..6]}-{basic[6..11]}:{basic[11..13]}:{basic[13..15]}";

    private static JsonNode Answer(JsonObject asked) => JsonNode.Parse(CaseFile.WorkOut(asked.ToJsonString()))!;

    private static List<string> WorkOut(JsonObject asked) => [.. Answer(asked)["visits"]!.AsArray().Select(v => (string)v!["start"]!)];
}
