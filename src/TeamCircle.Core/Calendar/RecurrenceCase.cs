using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>A case of kind <c>recurrence</c>.</summary>
public sealed class RecurrenceCase
{
    private const int MostMinutes = 12 * 60;
    private const int MostVisits = 100_000;
    private static readonly LocalDateTimePattern[] Written =
    [
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"),
    ];
    private static readonly OffsetDateTimePattern Answered = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>");

    private readonly DateTimeZone _zone;
    private readonly LocalDateTime _start;
    private readonly int _minutes;
    private readonly Recurrence _rule;
    private readonly HashSet<LocalDateTime> _except;
    private readonly DateRange _days;
    private readonly int _most;

    private RecurrenceCase(CaseField field)
    {
        field.Only("kind", "start", "zone", "minutes", "rule", "except", "from", "to", "most");
        _start = Local(field.Get("start"));
        _zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(field.Get("zone").Text()) ?? throw field.Get("zone").Wrong("is no zone of the tz database");
        _minutes = field.Get("minutes").Number(1, MostMinutes);
        _rule = Rule(field.Get("rule"));
        _except = field.Find("except")?.List(Local).ToHashSet() ?? [];
        _days = field.Dates("from", "to");
        _most = field.Find("most")?.Number(1, MostVisits) ?? MostVisits;
    }

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static RecurrenceCase Read(CaseField field) => new(field);

    /// <summary>Works the case out, and writes the answer as one object: local times with their offset from UTC.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var starts = _rule.Starts(_start, _zone, Day.Date(_days.First), Day.Date(_days.Last));
        json.WriteStartObject();
        json.WriteStartArray("visits");
        foreach (var local in starts.Where(s => !_except.Contains(s)).Take(_most))
        {
            var start = WallTime.Resolve(local, _zone);
            json.WriteStartObject();
            json.WriteString("start", Answered.Format(start.ToOffsetDateTime()));
            json.WriteString("end", Answered.Format(start.PlusMinutes(_minutes).ToOffsetDateTime()));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static Recurrence Rule(CaseField field)
    {
        var rule = Recurrence.Read(field.Text());
        return rule.Value ?? throw field.Wrong(string.Join("; ", rule.Problems.Select(p => p.Message)));
    }

    private static LocalDateTime Local(CaseField field)
    {
        var text = field.Text("must be a local time such as 2026-09-01T09:00");
        var read = Array.Find([.. Written.Select(p => p.Parse(text))], r => r.Success);
        if (read is null)
            throw field.Wrong("must be a local time such as 2026-09-01T09:00");
        return read.Value.Year is >= 1900 and < 2200 ? read.Value : throw field.Wrong("must be of the years 1900 to 2199");
    }
}
