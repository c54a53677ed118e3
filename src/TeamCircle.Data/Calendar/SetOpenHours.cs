using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Calendar;

/// <summary>Says in which hours a learner can be visited, from a day on, and which place of the list is their home, school and so on.</summary>
public sealed class SetOpenHours(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public WeekInput Week { get; set; } = new();

        /// <summary>A place for each kind, in their order; null where nobody says.</summary>
        public List<int?> Places { get; set; } = [.. new int?[Enum.GetValues<Place>().Length]];
    }

    public sealed record Saved(int Learner, int Spans);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(SetOpenHours), input), db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var known = await db.Places.Where(p => p.AgencyId == agency && p.Live).Select(p => p.Id).ToListAsync(stop);
        List<Problem> problems = [.. input.Week.Problems()];
        if (input.Places.Any(p => p is { } place && !known.Contains(place)))
            problems.Add(new(nameof(input.Places), "Choose places of the list."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        await PlacesAsync(db, agency, input, stop);
        return Outcome<Saved>.Of(new(input.Learner, await HoursAsync(db, agency, input, stop)));
    }

    private static async Task<int> HoursAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var from = input.Week.FromDay!.Value;
        var standing = await db.OpenHours.Where(h => h.AgencyId == agency && h.LearnerId == input.Learner && (h.ToDay == null || h.ToDay >= from)).ToListAsync(stop);
        var rows = input.Week.Replace(standing, () => new OpenHoursRow { AgencyId = agency, LearnerId = input.Learner });
        db.AddRange(rows);
        return rows.Count;
    }

    private static async Task PlacesAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var standing = await db.LearnerPlaces.Where(p => p.AgencyId == agency && p.LearnerId == input.Learner).ToListAsync(stop);
        foreach (var (kind, place) in Enum.GetValues<Place>().Zip(input.Places))
        {
            var now = standing.Find(p => p.Kind == kind);
            if (now?.PlaceId == place)
                continue;
            if (now is not null)
                (now.Live, now.TakenBackReason) = (false, "another place");
            await db.SaveChangesAsync(stop);
            if (place is { } id)
                db.Add(new LearnerPlaceRow { AgencyId = agency, LearnerId = input.Learner, Kind = kind, PlaceId = id });
        }
    }
}
