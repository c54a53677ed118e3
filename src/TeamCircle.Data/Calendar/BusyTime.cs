using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Calendar;

/// <summary>A time in which a colleague is taken, as the database tells it without saying by whom.</summary>
internal sealed record BusyTime(LocalDateTime Starts, LocalDateTime Ends, string? PlaceCode)
{
    private sealed record Answer(Instant Starts, Instant Ends, string? PlaceCode);

    /// <summary>When the person who is to give the visit is taken by learners whom the caller does not reach.</summary>
    /// <param name="known">The visits within reach: what they take is known with all it is.</param>
    public static async Task<IReadOnlyList<BusyTime>> OthersAsync(
        PortalDb db, VisitSpec spec, LocalDate first, LocalDate last, IReadOnlyList<VisitRow> known, CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[spec.Zone];
        var (from, to) = (WallTime.Resolve(first.AtMidnight(), zone).ToInstant(), WallTime.Resolve(last.PlusDays(1).AtMidnight(), zone).ToInstant());
        var taken = await db.Database.SqlQuery<Answer>(
            $"select starts, ends, place_code from portal.provider_busy({spec.Provider}, {from}, {to})").ToListAsync(stop);
        var own = known.Where(v => v.ProviderId == spec.Provider).Select(v => (v.During.LowerBound, v.During.UpperBound)).ToHashSet();
        return [.. taken.Where(t => !own.Contains((t.Starts, t.Ends)))
            .Select(t => new BusyTime(t.Starts.InZone(zone).LocalDateTime, t.Ends.InZone(zone).LocalDateTime, t.PlaceCode))];
    }

    public TakenTime Taken => new(Starts.TimeOfDay, Ends.Date == Starts.Date ? Ends.TimeOfDay : LocalTime.MaxValue, PlaceCode, "somebody", false, false);
}
