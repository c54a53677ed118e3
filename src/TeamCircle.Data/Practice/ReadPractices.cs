using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Practice;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Practice;

/// <summary>Lists a learner's practices, newest first.</summary>
public sealed class ReadPractices(Portal portal)
{
    public const int MostListed = 100;

    /// <param name="routine">One routine; null for all.</param>
    public Task<List<ListedPractice>> RunAsync(Scope scope, int learner, int? routine, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, learner, routine, stop), stop);

    private static async Task<List<ListedPractice>> ReadAsync(PortalDb db, int agency, int learner, int? routine, CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
        var standIns = NewPeople.Of(db, agency);
        var practices = await (
            from p in db.Practices
            join r in db.Routines on new { p.AgencyId, p.LearnerId, Id = p.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
            join v in db.RoutineVersions on new { p.AgencyId, p.LearnerId, Id = p.VersionId } equals new { v.AgencyId, v.LearnerId, v.Id }
            join who in db.People on new { p.AgencyId, Id = p.ProviderId } equals new { who.AgencyId, who.Id }
            where p.AgencyId == agency && p.LearnerId == learner && p.Live && (routine == null || p.RoutineId == routine)
            orderby p.StartedAt descending
            select new
            {
                p.Id,
                p.StartedAt,
                p.RoutineId,
                r.Name,
                v.Number,
                Provider = who.Name,
                p.Entry,
                IsSecond = p.ObservesCode != null,
                IsNew = standIns.Any(n => n.LearnerId == p.LearnerId && n.PersonId == p.ProviderId && n.FromDay <= p.OnDay && n.ToDay >= p.OnDay),
            }).Take(MostListed).ToListAsync(stop);
        var ids = practices.Select(p => p.Id).ToList();
        var trials = (await db.Trials
            .Where(t => t.AgencyId == agency && t.LearnerId == learner && ids.Contains(t.PracticeId) && t.Counts && !t.AtOnce
                && (t.Ending == TrialEnd.Response || t.Ending == TrialEnd.NoResponse))
            .Select(t => new { t.PracticeId, Alone = t.PromptsNeeded == 0 && t.Response == ResponseKind.HopedFor }).ToListAsync(stop)).ToLookup(t => t.PracticeId, t => t.Alone);
        return [.. practices.Select(p => new ListedPractice(
            p.Id, p.StartedAt.InZone(zone).LocalDateTime, p.RoutineId, p.Name, p.Number, p.Provider, p.Entry, p.IsSecond, new(trials[p.Id].Count(alone => alone), trials[p.Id].Count())) { IsNewPerson = p.IsNew })];
    }
}
