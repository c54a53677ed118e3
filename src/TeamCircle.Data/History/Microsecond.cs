namespace TeamCircle.Data.History;

/// <summary>Moments as the database keeps them: what is hashed before it is stored must read the same afterwards.</summary>
internal static class Microsecond
{
    /// <summary>Now, cut to the microsecond.</summary>
    public static Instant Now(TimeProvider clock) =>
        Instant.FromUnixTimeTicks(Instant.FromDateTimeOffset(clock.GetUtcNow()).ToUnixTimeTicks() / 10 * 10);
}
