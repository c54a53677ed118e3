using System.Text.Json;
using NodaTime.Text;
using TeamCircle.Data.Devices;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Devices;

/// <summary>What a device sent, for a person to read.</summary>
public static class SentWords
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Numbers that say nothing to a person; they stand in full below.</summary>
    private static readonly HashSet<string> Numbers = ["id", "version", "goalId", "visit", "visits", "services", "routine", "observes", "sessionId", "providerId", "learner"];

    /// <summary>What was typed, line by line; what has parts of its own is counted here and stands in full below.</summary>
    public static IEnumerable<(string Name, string Value)> Typed(ListedAside item)
    {
        using var body = JsonDocument.Parse(item.Body);
        return [.. body.RootElement.EnumerateObject().Where(p => p.Value.ValueKind is not (JsonValueKind.Null or JsonValueKind.Object) && !Numbers.Contains(p.Name))
            .Select(p => (Say.Begin(Spaced(p.Name)), ValueOf(p.Value)))];
    }

    public static string Whole(ListedAside item)
    {
        using var body = JsonDocument.Parse(item.Body);
        return JsonSerializer.Serialize(body.RootElement, Indented);
    }

    /// <summary>Where the same can be typed anew, with what stands now before one's eyes; null for a practice.</summary>
    public static string? FormOf(ListedAside item)
    {
        using var body = JsonDocument.Parse(item.Body);
        return item.Kind switch
        {
            OperationKind.Visit => body.RootElement.TryGetProperty("visits", out var visits) && visits.GetArrayLength() > 0 ? $"/visits/{visits[0].GetGuid()}/log" : "/visits/new/log",
            OperationKind.Probe => $"/goals/{body.RootElement.GetProperty("goalId").GetInt32()}/probe",
            _ => null,
        };
    }

    private static string Spaced(string name) => string.Concat(name.Select(c => char.IsUpper(c) ? $" {char.ToLowerInvariant(c)}" : $"{c}"));

    private static string ValueOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.String => LocalDatePattern.Iso.Parse(value.GetString()!) is { Success: true } day ? Say.Date(day.Value) : value.GetString()!,
        JsonValueKind.True => "yes",
        JsonValueKind.False => "no",
        JsonValueKind.Array when value.EnumerateArray().Any(v => v.ValueKind == JsonValueKind.Object) => Say.Number(value.GetArrayLength()),
        _ => value.ToString(),
    };
}
