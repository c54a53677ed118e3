using System.Text.Json;
using NodaTime.Serialization.SystemTextJson;
using TeamCircle.Core;

namespace TeamCircle.Data.Devices;

/// <summary>How devices and the portal write to each other: <see cref="StrictJson"/>, with dates such as <c>2026-09-14</c>.</summary>
public static class DeviceJson
{
    public static readonly JsonSerializerOptions Options = Make();

    private static JsonSerializerOptions Make()
    {
        var options = new JsonSerializerOptions(StrictJson.Options).ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }
}
