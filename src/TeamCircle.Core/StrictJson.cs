using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Core;

/// <summary>JSON for values that are kept for years or come from a device: names in camelCase, codes as words, what is null left out, instants
/// in UTC such as <c>2026-09-14T14:03:07.25Z</c>, days such as <c>2026-09-14</c>.</summary>
/// <remarks>Reading is strict: a name that is unknown, stands twice or lacks, and a code that is none are refused.</remarks>
public static class StrictJson
{
    public static readonly JsonSerializerOptions Options = Make();

    private static JsonSerializerOptions Make()
    {
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
            AllowDuplicateProperties = false,
            RespectNullableAnnotations = true,
            RespectRequiredConstructorParameters = true,
            Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false), new InstantText(), new DayText() },
        };
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }

    private sealed class InstantText : JsonConverter<Instant>
    {
        public override Instant Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            reader.TokenType == JsonTokenType.String && InstantPattern.ExtendedIso.Parse(reader.GetString()!) is { Success: true } read
                ? read.Value
                : throw new JsonException("A moment is written in UTC, such as 2026-09-14T14:03:07.25Z.");

        public override void Write(Utf8JsonWriter writer, Instant value, JsonSerializerOptions options) =>
            writer.WriteStringValue(InstantPattern.ExtendedIso.Format(value));
    }

    private sealed class DayText : JsonConverter<LocalDate>
    {
        public override LocalDate Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            reader.TokenType == JsonTokenType.String && LocalDatePattern.Iso.Parse(reader.GetString()!) is { Success: true } read
                ? read.Value
                : throw new JsonException("A day is written such as 2026-09-14.");

        public override void Write(Utf8JsonWriter writer, LocalDate value, JsonSerializerOptions options) =>
            writer.WriteStringValue(LocalDatePattern.Iso.Format(value));
    }
}
