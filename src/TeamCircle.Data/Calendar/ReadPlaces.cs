using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Road;

namespace TeamCircle.Data.Calendar;

/// <summary>The agency's places by code, and the ways between them.</summary>
/// <param name="Minutes">By the two places; a way that is missing is not known, or takes as long as the way back.</param>
public sealed record PlacesPage(IReadOnlyList<PlaceShown> Places, IReadOnlyDictionary<(int From, int To), int> Minutes)
{
    /// <summary>In what distances are entered.</summary>
    public DistanceUnit Unit { get; init; }

    /// <summary>Distances by the two places, in tenths of the unit; what is missing is not known.</summary>
    public IReadOnlyDictionary<(int From, int To), int> Tenths { get; init; } = new Dictionary<(int, int), int>();

    /// <summary>Addresses by place; what is missing was not entered.</summary>
    public IReadOnlyDictionary<int, string> Addresses { get; init; } = new Dictionary<int, string>();
}

/// <summary>When and where somebody can be met: the hours that hold on a day.</summary>
public sealed record HoursPage(string Name, WeekInput Week, IReadOnlyList<int?> Places, IReadOnlyList<PlaceShown> Offered)
{
    /// <summary>Of a person: the most minutes of visits a day; null for none.</summary>
    public int? MostMinutes { get; init; }
}

/// <summary>Reads places, travel times and hours.</summary>
public sealed class ReadPlaces(Portal portal)
{
    public Task<PlacesPage> RunAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var ways = await db.TravelTimes.Where(t => t.AgencyId == scope.AgencyId).ToListAsync(stop);
        return new PlacesPage(await PlacesAsync(db, scope.AgencyId, stop), ways.ToDictionary(t => (t.FromPlaceId, t.ToPlaceId), t => t.Minutes))
        {
            Unit = await db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.DistanceUnit).SingleAsync(stop),
            Tenths = ways.Where(t => t.Tenths is not null).ToDictionary(t => (t.FromPlaceId, t.ToPlaceId), t => t.Tenths!.Value),
            Addresses = await db.PlaceAddresses.Where(a => a.AgencyId == scope.AgencyId).ToDictionaryAsync(a => a.PlaceId, a => a.Address, stop),
        };
    }, stop);

    /// <summary>A person's working hours; null where there is no such person.</summary>
    public Task<HoursPage?> OfPersonAsync(Scope scope, int person, LocalDate today, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var row = await db.People.SingleOrDefaultAsync(p => p.AgencyId == scope.AgencyId && p.Id == person, stop);
        var hours = await db.WorkingHours.Where(h => h.AgencyId == scope.AgencyId && h.PersonId == person && (h.ToDay == null || h.ToDay >= today)).ToListAsync(stop);
        return row is null ? null
            : new HoursPage(row.Name, WeekInput.Of(hours.Select(h => (h.Weekday, new Hours(h.FromTime, h.ToTime))), today), [], []) { MostMinutes = row.MostMinutesADay };
    }, stop);

    /// <summary>A learner's open hours and places; null where the scope does not reach the learner.</summary>
    public Task<HoursPage?> OfLearnerAsync(Scope scope, int learner, LocalDate today, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var name = await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop);
        var hours = await db.OpenHours.Where(h => h.AgencyId == scope.AgencyId && h.LearnerId == learner && (h.ToDay == null || h.ToDay >= today)).ToListAsync(stop);
        var places = await db.LearnerPlaces.Where(p => p.AgencyId == scope.AgencyId && p.LearnerId == learner).ToDictionaryAsync(p => p.Kind, p => p.PlaceId, stop);
        return name is null ? null : new HoursPage(name, WeekInput.Of(hours.Select(h => (h.Weekday, new Hours(h.FromTime, h.ToTime))), today),
            [.. Enum.GetValues<Place>().Select(k => places.TryGetValue(k, out var place) ? (int?)place : null)], await PlacesAsync(db, scope.AgencyId, stop));
    }, stop);

    private static Task<List<PlaceShown>> PlacesAsync(PortalDb db, int agency, CancellationToken stop) => db.Places
        .Where(p => p.AgencyId == agency && p.Live).OrderBy(p => p.Code).Select(p => new PlaceShown(p.Id, p.Code, p.Name, p.Kind, p.Version)).ToListAsync(stop);
}
