using System.Text.Json;
using NodaTime.Text;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Progress;

/// <summary>A case of kind <c>aimline</c>: the line, what it asks the team, and when the trend meets its target.</summary>
public sealed record AimlineCase(Aimline Aimline, IReadOnlyList<DayValue> Probes, int InARow, IReadOnlyList<int> At)
{
    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static AimlineCase Read(CaseField field)
    {
        field.Only("kind", "baselineDate", "baselineValue", "targetDate", "target", "better", "probes", "inARow", "at");
        var (first, last) = (field.Get("baselineDate").Date(), field.Get("targetDate").Date());
        if (last <= first)
            throw field.Get("targetDate").Wrong("must be after baselineDate");
        var line = new Aimline(
            first, field.Get("baselineValue").Decimal(), last, field.Get("target").Decimal(), SeriesCase.BetterOf(field.Get("better")));
        var probes = field.Find("probes")?.List(0, SeriesCase.Most, ReadProbe) ?? [];
        return new(
            line, [.. probes.OrderBy(p => p.Day)], field.Find("inARow")?.Number(1, SeriesCase.Most) ?? Questions.Usual,
            field.Find("at")?.List(0, SeriesCase.Most, date => date.Date()) ?? []);
    }

    /// <summary>Works the case out, and writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteNumber("perDay", Aimline.PerDay);
        json.WriteNumber("perWeek", Aimline.PerWeek);
        json.WriteStartArray("at");
        foreach (var day in At)
        {
            json.WriteStartObject();
            json.WriteString("date", Written(day));
            json.WriteNumber("value", Aimline.At(day));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteString("decision", JsonNamingPolicy.CamelCase.ConvertName(Questions.Of(Aimline, Probes, InARow).ToString()));
        var projected = Projection.Of(Probes, Aimline.Target, Aimline.Better);
        if (projected.Day is { } meets)
            json.WriteString("projectedDate", Written(meets));
        else
            json.WriteNull("projectedDate");
        if (projected.Why is { } why)
            json.WriteString("why", $"projectedDate: {why}");
        json.WriteEndObject();
    }

    private static DayValue ReadProbe(CaseField field) =>
        new(field.Only("date", "value").Get("date").Date(), field.Get("value").Decimal());

    private static string Written(int day) => LocalDatePattern.Iso.Format(Day.Date(day));
}
