namespace TeamCircle.Data.People;

/// <summary>The agency's own time: "today" is the date in its zone, not the server's.</summary>
public static class AgencyClock
{
    /// <exception cref="NodaTime.TimeZones.DateTimeZoneNotFoundException">The zone is not in the tz database.</exception>
    public static LocalDate Today(TimeProvider clock, string zone) => Now(clock, zone).Date;

    public static LocalDateTime Now(TimeProvider clock, string zone) =>
        Instant.FromDateTimeOffset(clock.GetUtcNow()).InZone(DateTimeZoneProviders.Tzdb[zone]).LocalDateTime;
}
