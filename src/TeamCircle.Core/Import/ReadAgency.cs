using System.Text.Json;
using NodaTime;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Import;

/// <summary>Reads agency.json. What is left out stays as it is, or as it is by default in an agency that is new.</summary>
internal sealed class ReadAgency(RawText file, AgencyFact? stored, Findings findings)
{
    private static readonly string[] Known =
        ["name", "timeZone", "weekdays", "weekStart", "shortWindow", "surplus", "tolerancePercent", "sessionShare"];

    private bool _good = true;

    /// <summary>What the file says, or null where something in it is wrong.</summary>
    public AgencyLine? Run()
    {
        try
        {
            using var json = JsonDocument.Parse(file.Text, new JsonDocumentOptions { AllowDuplicateProperties = false });
            if (json.RootElement.ValueKind == JsonValueKind.Object)
                return Read(json.RootElement);
            Refuse("", "This file must hold one JSON object.");
        }
        catch (JsonException wrong)
        {
            findings.Refuse(new(file.File, (int)(wrong.LineNumber ?? 0) + 1, "", "This is not JSON, or a name stands twice in it."));
        }
        return null;
    }

    private AgencyLine? Read(JsonElement json)
    {
        foreach (var property in json.EnumerateObject().Where(p => !Known.Contains(p.Name)))
            findings.Note(new(file.File, LineOf(property.Name), property.Name, "This name is not known here and was passed over."));
        var policy = stored?.Policies.Count > 0 ? stored.Policies[^1] : Policy.Default;
        var read = new AgencyLine(
            Text(json, "name"),
            Zone(json),
            Weekdays(json),
            Weekday(json, "weekStart") ?? stored?.WeekStart ?? IsoDayOfWeek.Monday,
            new Policy(
                Word<ShortWindow>(json, "shortWindow") ?? policy.ShortWindow,
                Word<Surplus>(json, "surplus") ?? policy.Surplus,
                Percent(json, "tolerancePercent", 0) ?? policy.TolerancePercent,
                Percent(json, "sessionShare", 1) ?? policy.SessionShare));
        if (_good && stored?.Policies.Count > 0 && !stored.Policies.Contains(read.Policy))
            Refuse("shortWindow", "The policy for counting (shortWindow, surplus, tolerancePercent, sessionShare) differs from the stored one. It is changed on the policy page, with a reason and a second person.");
        return _good ? read : null;
    }

    private string Text(JsonElement json, string name)
    {
        if (json.TryGetProperty(name, out var found) && found.ValueKind == JsonValueKind.String && found.GetString()!.Trim() is { Length: > 0 } text)
            return text;
        Refuse(name, $"A text called '{name}' is needed here.");
        return "";
    }

    private string Zone(JsonElement json)
    {
        var zone = Text(json, "timeZone");
        if (zone.Length > 0 && DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) is null)
            Refuse("timeZone", "This is no name of the tz database. Write one such as America/Los_Angeles.");
        return zone;
    }

    private int Weekdays(JsonElement json)
    {
        if (!json.TryGetProperty("weekdays", out var list))
            return stored?.Weekdays ?? 0b0011111;
        var bits = 0;
        foreach (var item in list.ValueKind == JsonValueKind.Array ? list.EnumerateArray().ToArray() : [])
        {
            if (DayOf(item) is { } day)
                bits |= 1 << ((int)day - 1);
            else
                bits = -1;
        }
        if (bits <= 0)
            Refuse("weekdays", "Write a list of the ordinary weekdays, such as [\"Mon\", \"Tue\", \"Wed\", \"Thu\", \"Fri\"].");
        return bits;
    }

    private IsoDayOfWeek? Weekday(JsonElement json, string name)
    {
        if (!json.TryGetProperty(name, out var found))
            return null;
        if (DayOf(found) is null)
            Refuse(name, "This is not a weekday. Write Mon, Tue, Wed, Thu, Fri, Sat or Sun.");
        return DayOf(found);
    }

    private static IsoDayOfWeek? DayOf(JsonElement json)
    {
        if (json.ValueKind != JsonValueKind.String || json.GetString()!.Trim() is not { Length: 3 } text)
            return null;
        foreach (var day in Enum.GetValues<IsoDayOfWeek>())
        {
            if (day != IsoDayOfWeek.None && day.ToString().StartsWith(text, StringComparison.OrdinalIgnoreCase))
                return day;
        }
        return null;
    }

    private T? Word<T>(JsonElement json, string name) where T : struct, Enum
    {
        if (!json.TryGetProperty(name, out var found))
            return null;
        var code = found.ValueKind == JsonValueKind.String ? Words.Find<T>(found.GetString()!) : null;
        if (code is null)
            Refuse(name, $"This is not known here. Write {string.Join(" or ", Enum.GetNames<T>().Select(n => char.ToLowerInvariant(n[0]) + n[1..]))}.");
        return code;
    }

    private int? Percent(JsonElement json, string name, int least)
    {
        if (!json.TryGetProperty(name, out var found))
            return null;
        if (found.ValueKind == JsonValueKind.Number && found.TryGetInt32(out var percent) && percent >= least && percent <= 100)
            return percent;
        Refuse(name, $"This must be a whole percent from {least} to 100.");
        return null;
    }

    private void Refuse(string name, string reason)
    {
        _good = false;
        findings.Refuse(new(file.File, LineOf(name), name, reason));
    }

    private int LineOf(string name)
    {
        var place = file.Text.IndexOf($"\"{name}\"", StringComparison.Ordinal);
        return 1 + file.Text.AsSpan(0, Math.Max(0, place)).Count('\n');
    }
}
