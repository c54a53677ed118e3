using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Calendar;

/// <summary>Reads a person's own visits as another calendar may show them: when and where, nothing else.</summary>
public sealed class ReadFeedVisits(Portal portal)
{
    private const int DaysBack = 60, DaysAhead = CalendarRules.MostDaysAhead;

    /// <returns>The calendar's text (RFC 5545).</returns>
    public Task<string> RunAsync(Caller caller, CancellationToken stop = default) =>
        portal.ReadAsync(Scope.Of(caller, "calendar feed"), async db =>
        {
            caller = await QuietLearners.LeaveOutAsync(db, caller, stop);
            var zone = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
            List<FeedVisit> visits = [.. await VisitsAsync(db, caller, zone, stop), .. await HandedOverAsync(db, caller, zone, stop)];
            return VisitFeed.Write("Visits", DateTimeZoneProviders.Tzdb[zone], visits);
        }, stop);

    // Rows that no longer stand are among them: whoever holds such a visit is to be told that it is off.
    private static Task<IReadOnlyList<FeedVisit>> VisitsAsync(PortalDb db, Caller caller, string zone, CancellationToken stop)
    {
        var (first, last) = Reach(caller);
        return FeedAsync(zone,
            from v in db.Visits
            where v.AgencyId == caller.AgencyId && v.ProviderId == caller.PersonId && v.OnDay >= first && v.OnDay <= last
            orderby v.OnDay, v.StartTime, v.Id
            let own = db.LearnerPlaces.Where(l => l.AgencyId == v.AgencyId && l.LearnerId == v.LearnerId && l.Kind == v.Place).Select(l => (int?)l.PlaceId).FirstOrDefault()
            select new Entry(
                v.Id, v.OnDay, v.StartTime, v.Minutes, v.Zone, v.Sequence, v.RecordedAt, v.Place,
                db.Places.Where(p => p.AgencyId == v.AgencyId && p.Id == (v.PlaceId ?? own)).Select(p => p.Code).FirstOrDefault(),
                !v.Live || !v.TakesTime || v.State == VisitState.CalledOff), stop);
    }

    // What went to somebody else, as it was when it went: who has it now and what becomes of it is no business of this calendar.
    private static Task<IReadOnlyList<FeedVisit>> HandedOverAsync(PortalDb db, Caller caller, string zone, CancellationToken stop)
    {
        var (first, last) = Reach(caller);
        return FeedAsync(zone,
            from h in db.HandedOver
            join v in db.Visits on new { h.AgencyId, h.LearnerId, Id = h.VisitId } equals new { v.AgencyId, v.LearnerId, v.Id }
            where h.AgencyId == caller.AgencyId && h.PersonId == caller.PersonId && v.ProviderId != caller.PersonId && h.OnDay >= first && h.OnDay <= last
            orderby h.OnDay, h.StartTime, h.VisitId
            let own = db.LearnerPlaces.Where(l => l.AgencyId == h.AgencyId && l.LearnerId == h.LearnerId && l.Kind == h.Place).Select(l => (int?)l.PlaceId).FirstOrDefault()
            select new Entry(
                h.VisitId, h.OnDay, h.StartTime, h.Minutes, h.Zone, h.Sequence, v.RecordedAt, h.Place,
                db.Places.Where(p => p.AgencyId == h.AgencyId && p.Id == (h.PlaceId ?? own)).Select(p => p.Code).FirstOrDefault(), true), stop);
    }

    private static (LocalDate First, LocalDate Last) Reach(Caller caller) => (caller.Today.PlusDays(-DaysBack), caller.Today.PlusDays(DaysAhead));

    private sealed record Entry(
        Guid Id, LocalDate OnDay, LocalTime Start, int Minutes, string Zone, int Sequence, Instant RecordedAt, Place Place, string? Code, bool IsOff);

    private static async Task<IReadOnlyList<FeedVisit>> FeedAsync(string zone, IQueryable<Entry> entries, CancellationToken stop) =>
        [.. (await entries.ToListAsync(stop)).Select(e => new FeedVisit(
            e.Id, Local(e, zone), e.Minutes, e.Code ?? Words.Of(e.Place), e.Sequence, e.IsOff, e.RecordedAt))];

    private static LocalDateTime Local(Entry entry, string zone) => entry.Zone == zone ? entry.OnDay + entry.Start
        : WallTime.Resolve(entry.OnDay + entry.Start, DateTimeZoneProviders.Tzdb[entry.Zone]).WithZone(DateTimeZoneProviders.Tzdb[zone]).LocalDateTime;
}
