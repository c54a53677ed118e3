using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Road;

namespace TeamCircle.Data.Road;

/// <summary>A place on somebody's way.</summary>
/// <param name="Address">Only for whoever drives there today; null elsewhere, and where nobody entered it.</param>
public sealed record RoadPlace(string Code, string Name, string? Address);

/// <summary>Somebody's way today.</summary>
/// <param name="Day">The visits of today that were held or are planned, in order.</param>
/// <param name="Places">By number: those of the day, and those to choose a start from.</param>
/// <param name="StartVersion">Of the row that names the start; 0 where there is none.</param>
public sealed record RoadToday(RoadDay Day, DistanceUnit Unit, int? Start, int StartVersion, IReadOnlyDictionary<int, RoadPlace> Places);

/// <summary>Somebody's month on the road.</summary>
/// <param name="Days">Days with a visit that was held, oldest first.</param>
public sealed record RoadMonth(string Name, string Agency, YearMonth Month, DistanceUnit Unit, bool HasStart, IReadOnlyList<RoadDay> Days, IReadOnlyDictionary<int, RoadPlace> Places)
{
    public int Minutes => Days.Sum(d => d.Minutes);

    public int Tenths => Days.Sum(d => d.Tenths);
}

/// <summary>Reads where somebody's visits were, and the ways between them. Names, services and notes are no part of it.</summary>
public sealed class ReadRoad(Portal portal)
{
    private sealed record Row(LocalDate OnDay, LocalTime Starts, LocalTime Ends, int? PlaceId, string LearnerCode, bool IsHeld);

    /// <summary>The caller's own way today, planned visits among it.</summary>
    public Task<RoadToday> TodayAsync(Caller caller, Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var (unit, table, places) = await TableAsync(db, caller.AgencyId, stop);
        var start = await db.RoadStarts.SingleOrDefaultAsync(s => s.AgencyId == caller.AgencyId && s.PersonId == caller.PersonId, stop);
        var stops = (await StopsAsync(db, caller.PersonId, caller.Today, caller.Today, stop)).Select(Stop).ToList();
        int[] ids = [.. stops.Select(s => s.Place).OfType<int>().Distinct()];
        foreach (var (place, address) in await db.PlaceAddresses.Where(a => a.AgencyId == caller.AgencyId && ids.Contains(a.PlaceId)).ToDictionaryAsync(a => a.PlaceId, a => a.Address, stop))
            places[place] = places[place] with { Address = address };
        return new RoadToday(RoadDay.Of(caller.Today, stops, start?.PlaceId, table), unit, start?.PlaceId, start?.Version ?? 0, places);
    }, stop);

    /// <summary>The held visits of a month; null where there is no such person, or where the scope is neither theirs nor the agency's.</summary>
    public Task<RoadMonth?> MonthAsync(Scope scope, int person, YearMonth month, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (person != scope.PersonId && scope.Wall == Wall.Person)
            return null;
        var who = await db.People.Where(p => p.AgencyId == scope.AgencyId && p.Id == person)
            .Join(db.Agencies, p => p.AgencyId, a => a.Id, (p, a) => new { p.Name, Agency = a.Name }).SingleOrDefaultAsync(stop);
        if (who is null)
            return null;
        var (unit, table, places) = await TableAsync(db, scope.AgencyId, stop);
        var start = await db.RoadStarts.Where(s => s.AgencyId == scope.AgencyId && s.PersonId == person).Select(s => s.PlaceId).SingleOrDefaultAsync(stop);
        var dates = month.ToDateInterval();
        var rows = await StopsAsync(db, person, dates.Start, dates.End, stop);
        return new RoadMonth(who.Name, who.Agency, month, unit, start is not null,
            [.. rows.Where(r => r.IsHeld).GroupBy(r => r.OnDay).Select(day => RoadDay.Of(day.Key, [.. day.Select(Stop)], start, table))], places);
    }, stop);

    private static RoadStop Stop(Row row) => new(row.Starts, row.Ends, row.PlaceId, row.LearnerCode);

    private static Task<List<Row>> StopsAsync(PortalDb db, int person, LocalDate first, LocalDate last, CancellationToken stop) => db.Database.SqlQuery<Row>(
        $"select on_day, starts, ends, place_id, learner_code, is_held from portal.road_stops({person}, {first}, {last})").OrderBy(r => r.OnDay).ThenBy(r => r.Starts).ThenBy(r => r.Ends).ToListAsync(stop);

    private static async Task<(DistanceUnit Unit, RoadTable Table, Dictionary<int, RoadPlace> Places)> TableAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var unit = await db.Agencies.Where(a => a.Id == agency).Select(a => a.DistanceUnit).SingleAsync(stop);
        var ways = await db.TravelTimes.Where(t => t.AgencyId == agency).ToDictionaryAsync(t => (t.FromPlaceId, t.ToPlaceId), t => new RoadWay(t.Minutes, t.Tenths), stop);
        var places = await db.Places.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => new RoadPlace(p.Code, p.Name, null), stop);
        return (unit, new(ways), places);
    }
}
