using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.MakeUps;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.MakeUps;

/// <summary>Where visits are, by the codes of the agency's places, and how long the ways take.</summary>
internal sealed class PlannerPlaces
{
    /// <summary>Minutes taken for a way that nobody entered, unless known ones are longer.</summary>
    private const int AssumedMinutes = 30;

    private readonly Dictionary<int, string> _codes;
    private readonly Dictionary<(int Learner, Place Kind), int> _places;
    private readonly List<(string From, string To, int Minutes)> _legs;

    private PlannerPlaces(Dictionary<int, string> codes, Dictionary<(int, Place), int> places, List<(string, string, int)> legs) =>
        (_codes, _places, _legs) = (codes, places, legs);

    public static async Task<PlannerPlaces> ReadAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var codes = await db.Places.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Code, stop);
        var places = await db.LearnerPlaces.Where(p => p.AgencyId == agency && p.Live).ToDictionaryAsync(p => (p.LearnerId, p.Kind), p => p.PlaceId, stop);
        var times = await db.TravelTimes.Where(t => t.AgencyId == agency && t.Live).ToListAsync(stop);
        return new(codes, places, [.. times.Select(t => (codes[t.FromPlaceId], codes[t.ToPlaceId], t.Minutes))]);
    }

    public string Of(VisitRow visit) => visit.PlaceId is { } own ? _codes[own] : Of(visit.LearnerId, visit.Place);

    /// <summary>The code of a learner's place; a place that nobody entered is one by itself.</summary>
    public string Of(int learner, Place kind) =>
        _places.TryGetValue((learner, kind), out var place) ? _codes[place] : $"({kind} of {learner})";

    /// <summary>The ways between the places of each provider. One that nobody entered takes long enough to be no short cut.</summary>
    /// <returns>The table, and the minutes that were assumed; null where all ways are known.</returns>
    public (TravelTable Table, int? Assumed) Travel(IEnumerable<(string Provider, string Place)> stops)
    {
        var known = new TravelTable(_legs);
        var assumed = Math.Max(AssumedMinutes, (_legs.Select(l => l.Minutes).DefaultIfEmpty().Max() + 1) / 2);
        var pairs = from own in stops.Distinct().GroupBy(s => s.Provider, s => s.Place)
                    from one in own
                    from other in own
                    where string.CompareOrdinal(one, other) < 0 && known.Between(one, other) is null
                    select (one, other);
        List<(string, string, int)> missing = [.. pairs.Distinct().Select(p => (p.one, p.other, assumed))];
        return missing.Count == 0 ? (known, null) : (new([.. _legs, .. missing]), assumed);
    }
}
