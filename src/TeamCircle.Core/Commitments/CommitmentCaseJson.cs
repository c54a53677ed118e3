using System.Globalization;
using System.Text.Json;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Writes a case of kind <c>commitment</c> as <see cref="CommitmentCase.Read"/> reads it.</summary>
public static class CommitmentCaseJson
{
    public static void Write(Utf8JsonWriter json, CommitmentCase written)
    {
        json.WriteStartObject();
        json.WriteString("kind", "commitment");
        json.WritePropertyName("calendar");
        Write(json, written.Calendar);
        List(json, "periods", written.Periods, Write);
        json.WritePropertyName("period");
        Write(json, written.Period);
        json.WritePropertyName("plan");
        Write(json, written.Plan);
        json.WritePropertyName("line");
        Write(json, written.Promise);
        json.WritePropertyName("policy");
        Write(json, written.Policy, null);
        if (written.LaterPolicies.Count > 0)
            List(json, "laterPolicies", written.LaterPolicies, (j, later) => Write(j, later.Policy, later.From));
        List(json, "given", written.Given, Write);
        List(json, "decisions", written.Decisions, Write);
        List(json, "planned", written.Planned, Write);
        if (written.BroughtForward.Length > 0)
            List(json, "broughtForward", written.BroughtForward, Write);
        List(json, "otherBusy", written.OtherBusy, (j, busy) => Write(j, new Entry(busy.Day, busy.Amount)));
        Date(json, "asOf", written.AsOf);
        if (written.DailyLimit is { } limit)
            json.WriteNumber("dailyLimit", limit);
        else
            json.WriteNull("dailyLimit");
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SchoolCalendar calendar)
    {
        json.WriteStartObject();
        List(json, "terms", calendar.Terms, (j, term) =>
        {
            j.WriteStartObject();
            Date(j, "firstDay", Day.Of(term.FirstDay));
            Date(j, "lastDay", Day.Of(term.LastDay));
            Code(j, "kind", term.Kind);
            j.WriteEndObject();
        });
        List(json, "weekdays", calendar.Weekdays, (j, day) => j.WriteStringValue(Weekday(day)));
        json.WriteString("weekStart", Weekday(calendar.WeekStart));
        List(json, "closures", calendar.SpecialDays.Where(d => d.Kind != ClosureKind.Extra), (j, day) =>
        {
            j.WriteStartObject();
            Date(j, "date", Day.Of(day.Date));
            Code(j, "kind", day.Kind);
            j.WriteEndObject();
        });
        List(json, "extraDays", calendar.SpecialDays.Where(d => d.Kind == ClosureKind.Extra), (j, day) => j.WriteStringValue(Text(Day.Of(day.Date))));
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Promise line)
    {
        json.WriteStartObject();
        json.WriteStartObject("every");
        Code(json, "unit", line.Every.Unit);
        json.WriteNumber("count", line.Every.Count);
        json.WriteEndObject();
        Date(json, "from", line.Dates.First);
        Date(json, "to", line.Dates.Last);
        List(json, "versions", line.Versions, (j, version) =>
        {
            j.WriteStartObject();
            Date(j, "from", version.From);
            j.WriteNumber("quantity", version.Quantity);
            if (version.Sessions > 0)
                j.WriteNumber("sessions", version.Sessions);
            j.WriteEndObject();
        });
        TermKind[] terms = line.Terms switch
        {
            LineTerms.Regular => [TermKind.Regular],
            LineTerms.Extended => [TermKind.Extended],
            _ => [TermKind.Regular, TermKind.Extended],
        };
        List(json, "terms", terms, (j, kind) => j.WriteStringValue(CodeOf(kind)));
        if (line.ShortWindow is { } rule)
            Code(json, "shortWindow", rule);
        if (line.Wording is { } wording)
            Code(json, "wording", wording);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Policy policy, int? from)
    {
        json.WriteStartObject();
        if (from is { } day)
            Date(json, "from", day);
        Code(json, "shortWindow", policy.ShortWindow);
        Code(json, "surplus", policy.Surplus);
        json.WriteNumber("tolerancePercent", policy.TolerancePercent);
        json.WriteNumber("sessionShare", policy.SessionShare);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, DateRange range)
    {
        json.WriteStartObject();
        Date(json, "start", range.First);
        Date(json, "end", range.Last);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Entry entry)
    {
        json.WriteStartObject();
        Date(json, "date", entry.Day);
        json.WriteNumber("amount", entry.Amount);
        if (entry.Pays != Day.None)
            Date(json, "pays", entry.Pays);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Decision decision)
    {
        json.WriteStartObject();
        Date(json, "date", decision.Day);
        json.WriteNumber("amount", decision.Amount);
        if (decision.Sessions != Decision.ByLength)
            json.WriteNumber("sessions", decision.Sessions);
        Code(json, "as", decision.Kind);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Debt debt)
    {
        json.WriteStartObject();
        Date(json, "date", debt.Day);
        Date(json, "since", debt.Since);
        json.WriteNumber("amount", debt.Opened.Minutes);
        json.WriteNumber("sessions", debt.Opened.Sessions);
        json.WriteNumber("paidBefore", debt.PaidBefore.Minutes);
        json.WriteNumber("sessionsPaidBefore", debt.PaidBefore.Sessions);
        json.WriteBoolean("byFile", debt.IsFromFile);
        json.WriteEndObject();
    }

    private static void List<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<Utf8JsonWriter, T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
            write(json, item);
        json.WriteEndArray();
    }

    private static void Code<T>(Utf8JsonWriter json, string name, T code) where T : struct, Enum => json.WriteString(name, CodeOf(code));

    private static string CodeOf<T>(T code) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(code.ToString());

    private static string Weekday(IsoDayOfWeek day) => day.ToString()[..3];

    private static void Date(Utf8JsonWriter json, string name, int day) => json.WriteString(name, Text(day));

    private static string Text(int day) => Day.Date(day).ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
}
