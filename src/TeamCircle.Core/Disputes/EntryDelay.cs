using System.Globalization;
using NodaTime;

namespace TeamCircle.Core.Disputes;

/// <summary>How long after a visit's end it was entered: a question of memory, never a finding about a person.</summary>
public static class EntryDelay
{
    /// <summary>Zero where it was entered before the visit was to end, as one that was not offered may be.</summary>
    public static Duration Of(Instant ended, Instant entered) => entered > ended ? entered - ended : Duration.Zero;

    /// <summary>
    /// The delay within which a share of the entries was made: the smallest one that at least so many do not exceed (nearest rank, so it is always
    /// one that occurred; PostgreSQL's percentile_disc answers the same). The median is the share of 50.
    /// </summary>
    /// <param name="percent">1 to 100.</param>
    /// <returns>Null where there are no entries.</returns>
    public static Duration? Within(IEnumerable<Duration> delays, int percent)
    {
        Duration[] inOrder = [.. delays.Order()];
        return inOrder.Length == 0 ? null : inOrder[(inOrder.Length * percent + 99) / 100 - 1];
    }

    /// <summary>"12 minutes", "5 hours", "3 days": whole ones, the rest left off; hours up to two days.</summary>
    public static string Words(Duration delay) =>
        delay < Duration.FromHours(1) ? Count((int)delay.TotalMinutes, "minute")
        : delay < Duration.FromHours(48) ? Count((int)delay.TotalHours, "hour")
        : Count(delay.Days, "day");

    private static string Count(int count, string what) => string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
