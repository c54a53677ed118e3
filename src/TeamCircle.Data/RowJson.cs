using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime.Serialization.SystemTextJson;
using NodaTime.Text;

namespace TeamCircle.Data;

/// <summary>Rows as <c>to_jsonb</c> writes them, by which one statement can answer with small tables of different shapes. Columns have their own names, codes theirs.</summary>
internal static class RowJson
{
    private static readonly JsonSerializerOptions Options = Make();

    /// <param name="json">An object whose properties hold a row, or a list of rows.</param>
    /// <exception cref="JsonException">It holds something else.</exception>
    public static T Read<T>(string json) => JsonSerializer.Deserialize<T>(json, Options) ?? throw new JsonException("There is no row.");

    /// <inheritdoc cref="Read{T}(string)"/>
    public static T Read<T>(JsonElement row) => row.Deserialize<T>(Options) ?? throw new JsonException("There is no row.");

    /// <summary>One value of a row; null where it is null.</summary>
    public static object? Read(JsonElement value, Type kind) => value.Deserialize(kind, Options);

    private static JsonSerializerOptions Make()
    {
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
            RespectNullableAnnotations = true,
            Converters = { new JsonStringEnumConverter(), new NodaPatternConverter<Instant>(new OffsetMoment()) },
        };
        options.ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }

    /// <summary>PostgreSQL writes a moment in the session's zone, with its offset.</summary>
    private sealed class OffsetMoment : IPattern<Instant>
    {
        public ParseResult<Instant> Parse(string text) => OffsetDateTimePattern.ExtendedIso.Parse(text).Convert(moment => moment.ToInstant());

        public string Format(Instant value) => OffsetDateTimePattern.ExtendedIso.Format(value.WithOffset(Offset.Zero));

        public StringBuilder AppendFormat(Instant value, StringBuilder builder) => builder.Append(Format(value));
    }
}
