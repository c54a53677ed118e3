using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace TeamCircle.Core.Closing;

/// <summary>JSON that is the same, letter by letter, whenever its content is: names in the order of their UTF-16 codes, no space between
/// tokens, numbers as they were written.</summary>
public static class CanonicalJson
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>What a writer writes, canonical.</summary>
    public static string Write(Action<Utf8JsonWriter> write)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, Options))
            write(json);
        return Of(Encoding.UTF8.GetString(buffer.ToArray()));
    }

    /// <summary>A value as <see cref="StrictJson"/> writes it, canonical.</summary>
    public static string Of<T>(T value) where T : notnull => Of(JsonSerializer.Serialize(value, StrictJson.Options));

    /// <summary>JSON in any form, canonical.</summary>
    /// <exception cref="JsonException">It is not JSON, or a name stands twice in one place.</exception>
    public static string Of(string json)
    {
        using var document = JsonDocument.Parse(json, new JsonDocumentOptions { AllowDuplicateProperties = false });
        using var buffer = new MemoryStream();
        using (var writer = new Utf8JsonWriter(buffer, Options))
            Write(writer, document.RootElement);
        return Encoding.UTF8.GetString(buffer.ToArray());
    }

    private static void Write(Utf8JsonWriter json, JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                json.WriteStartObject();
                foreach (var property in element.EnumerateObject().OrderBy(p => p.Name, StringComparer.Ordinal))
                {
                    json.WritePropertyName(property.Name);
                    Write(json, property.Value);
                }
                json.WriteEndObject();
                break;
            case JsonValueKind.Array:
                json.WriteStartArray();
                foreach (var item in element.EnumerateArray())
                    Write(json, item);
                json.WriteEndArray();
                break;
            default:
                element.WriteTo(json);
                break;
        }
    }
}
