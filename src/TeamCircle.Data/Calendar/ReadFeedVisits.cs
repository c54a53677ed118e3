using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Calendar;

/// <summary>Reads a person's own visits as another calendar may show them: when and where, nothing else.</summary>
public sealed class ReadFeedVisits(Portal portal)
{
    private const int DaysBack = 60, DaysAhead = CalendarRules.MostDaysAhead;

    /// <returns>The calendar's text (RFC 5545).</returns>
    public Task<string> RunAsync(Caller caller, CancellationToken stop = default) =>
        portal.ReadAsync(Scope.Of(caller, "calendar feed"), async db =>
        {
            var zone = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
            return VisitFeed.Write("Visits", DateTimeZoneProviders.Tzdb[zone], await VisitsAsync(db, caller, zone, stop));
        }, stop);

    // Rows that no longer stand are among them: whoever holds such a visit is to be told that it is off.
    private static async Task<IReadOnlyList<FeedVisit>> VisitsAsync(PortalDb db, Caller caller, string zone, CancellationToken stop)
    {
        var (first, last) = (caller.Today.PlusDays(-DaysBack), caller.Today.PlusDays(DaysAhead));
        var rows = await (
            from v in db.Visits
            where v.AgencyId == caller.AgencyId && v.ProviderId == caller.PersonId && v.OnDay >= first && v.OnDay <= last
            orderby v.OnDay, v.StartTime, v.Id
            let own = db.LearnerPlaces.Where(l => l.AgencyId == v.AgencyId && l.LearnerId == v.LearnerId && l.Kind == v.Place).Select(l => (int?)l.PlaceId).FirstOrDefault()
            select new
            {
                v.Id,
                v.OnDay,
                v.StartTime,
                v.Minutes,
                v.Zone,
                v.During,
                v.Sequence,
                v.RecordedAt,
                v.Place,
                IsOff = !v.Live || !v.TakesTime || v.State == VisitState.CalledOff,
                Code = db.Places.Where(p => p.AgencyId == v.AgencyId && p.Id == (v.PlaceId ?? own)).Select(p => p.Code).FirstOrDefault(),
            }).ToListAsync(stop);
        return [.. rows.Select(v => new FeedVisit(
            v.Id, v.Zone == zone ? v.OnDay + v.StartTime : v.During.LowerBound.InZone(DateTimeZoneProviders.Tzdb[zone]).LocalDateTime,
            v.Minutes, v.Code ?? Words.Of(v.Place), v.Sequence, v.IsOff, v.RecordedAt))];
    }
}
