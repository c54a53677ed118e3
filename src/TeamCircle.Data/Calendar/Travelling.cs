using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Calendar;

/// <summary>Where visits are, by the codes of the agency's places, and how long the way from one to another takes.</summary>
internal sealed class Travelling
{
    private readonly Dictionary<int, string> _codes;
    private readonly Dictionary<(int Learner, Place Kind), int> _places;
    private readonly Dictionary<(string From, string To), int> _minutes;

    private Travelling(Dictionary<int, string> codes, Dictionary<(int, Place), int> places, Dictionary<(string, string), int> minutes, VisitSpec spec)
    {
        (_codes, _places, _minutes) = (codes, places, minutes);
        Here = Code(spec.Learner.Id, spec.Place, spec.PlaceId);
    }

    /// <summary>The code of the place of the visit that is asked about; null where nobody said.</summary>
    public string? Here { get; }

    public static async Task<Travelling> ReadAsync(PortalDb db, VisitSpec spec, CancellationToken stop)
    {
        var codes = await db.Places.Where(p => p.AgencyId == spec.Agency).ToDictionaryAsync(p => p.Id, p => p.Code, stop);
        if (codes.Count == 0)
            return new([], [], [], spec);
        var places = await db.LearnerPlaces.Where(p => p.AgencyId == spec.Agency).ToDictionaryAsync(p => (p.LearnerId, p.Kind), p => p.PlaceId, stop);
        var times = await db.TravelTimes.Where(t => t.AgencyId == spec.Agency).ToListAsync(stop);
        return new(codes, places, times.ToDictionary(t => (codes[t.FromPlaceId], codes[t.ToPlaceId]), t => t.Minutes), spec);
    }

    public string? PlaceOf(VisitRow visit) => Code(visit.LearnerId, visit.Place, visit.PlaceId);

    /// <summary>Minutes from one place to another; the way back where only that is known; null where neither is.</summary>
    public int? Minutes(string from, string to) =>
        _minutes.TryGetValue((from, to), out var there) ? there : _minutes.TryGetValue((to, from), out var back) ? back : null;

    private string? Code(int learner, Place kind, int? own) =>
        own is { } id ? _codes.GetValueOrDefault(id) : _places.TryGetValue((learner, kind), out var place) ? _codes.GetValueOrDefault(place) : null;
}
