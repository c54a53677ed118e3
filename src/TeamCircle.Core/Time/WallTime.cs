using NodaTime;
using NodaTime.TimeZones;

namespace TeamCircle.Core.Time;

/// <summary>
/// The one place that turns a local time into an instant. A time that a clock change skips moves later by the gap
/// (2:30 becomes 3:30); of a time that comes twice, the first is meant. As RFC 5545, section 3.3.5 asks.
/// </summary>
public static class WallTime
{
    private static readonly ZoneLocalMappingResolver Resolver =
        Resolvers.CreateMappingResolver(Resolvers.ReturnEarlier, Resolvers.ReturnForwardShifted);

    public static ZonedDateTime Resolve(LocalDateTime local, DateTimeZone zone) => zone.ResolveLocal(local, Resolver);

    /// <summary>Start and end as instants; the length is in elapsed minutes, so a visit over a clock change keeps its length.</summary>
    public static (Instant Start, Instant End) Span(LocalDateTime start, int minutes, DateTimeZone zone)
    {
        var from = Resolve(start, zone).ToInstant();
        return (from, from + Duration.FromMinutes(minutes));
    }
}
