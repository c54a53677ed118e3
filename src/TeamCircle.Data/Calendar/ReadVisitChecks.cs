using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>Finds visits that stand where the calendar has changed under them, or that could be brought in though a form would have refused them.</summary>
internal static class ReadVisitChecks
{
    public const int MostListed = 200;

    /// <summary>Whose visits, and on which days.</summary>
    /// <param name="First">For travel; what is planned counts from <paramref name="Today"/> on.</param>
    /// <param name="Last">Belongs to it.</param>
    /// <param name="Provider">Of this person only; null: of all in reach.</param>
    internal readonly record struct Asked(int Agency, LocalDate First, LocalDate Last, LocalDate Today, int? Provider);

    public static async Task<VisitChecks> RunAsync(PortalDb db, Asked asked, CancellationToken stop) =>
        new(await ClosedAsync(db, asked, stop), await TravelAsync(db, asked, stop));

    private static async Task<IReadOnlyList<VisitCheck>> ClosedAsync(PortalDb db, Asked asked, CancellationToken stop)
    {
        var closed = await db.Closures
            .Where(c => c.AgencyId == asked.Agency && c.Live && c.Kind != ClosureKind.Extra && c.OnDay >= asked.Today && c.OnDay <= asked.Last)
            .ToDictionaryAsync(c => c.OnDay, c => c.Name, stop);
        if (closed.Count == 0)
            return [];
        var found = await (
            from v in ClosureVisits.Standing(db, asked.Agency, [.. closed.Keys])
            join l in db.Learners on new { v.AgencyId, Id = v.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
            where asked.Provider == null || v.ProviderId == asked.Provider
            orderby v.OnDay, v.StartTime
            select new VisitCheck(v.Id, v.OnDay, v.StartTime, v.Minutes, v.LearnerId, l.Name, p.Name, v.State)).Take(MostListed).ToListAsync(stop);
        return [.. found.Select(f => f with { ClosedBy = closed[f.On] })];
    }

    private sealed record Found(
        Guid Id, LocalDate OnDay, LocalTime StartTime, int Minutes, int LearnerId, string Learner, string Provider, string State, string FromPlace, string ToPlace, int Needs, int Has);

    // The way from a person's visit to their next one at another place, by the times that the database itself asks for (travel_minutes).
    private static async Task<IReadOnlyList<VisitCheck>> TravelAsync(PortalDb db, Asked asked, CancellationToken stop)
    {
        if (!await db.TravelTimes.AnyAsync(t => t.AgencyId == asked.Agency, stop))
            return [];
        var found = await db.Database.SqlQuery<Found>(
            $"""
            with placed as (
                select v.*, coalesce(v.place_id, l.place_id) as at_place
                from portal.visits v left join portal.learner_places l
                    on l.agency_id = v.agency_id and l.learner_id = v.learner_id and l.kind = v.place and l.live
                where v.agency_id = {asked.Agency} and v.on_day between {asked.First} and {asked.Last} and v.live and v.takes_time and v.state <> 'CalledOff'
                    and (v.state = 'Logged' or v.on_day >= {asked.Today}) and ({asked.Provider}::int is null or v.provider_id = {asked.Provider})
            ), pairs as (
                select p.*, lag(at_place) over w as came_from, lag(upper(during)) over w as ended
                from placed p where at_place is not null window w as (partition by provider_id, on_day order by during, id)
            )
            select v.id, v.on_day, v.start_time, v.minutes, v.learner_id, l.name as learner, p.name as provider, v.state, a.code as from_place, b.code as to_place,
                t.minutes as needs, greatest(0, extract(epoch from lower(v.during) - v.ended)::int / 60) as has
            from pairs v
                join portal.learners l on l.agency_id = v.agency_id and l.id = v.learner_id
                join portal.people p on p.agency_id = v.agency_id and p.id = v.provider_id
                join portal.places a on a.agency_id = v.agency_id and a.id = v.came_from
                join portal.places b on b.agency_id = v.agency_id and b.id = v.at_place
                cross join lateral (select t.minutes from portal.travel_times t where t.agency_id = v.agency_id and t.live
                    and ((t.from_place_id, t.to_place_id) = (v.came_from, v.at_place) or (t.from_place_id, t.to_place_id) = (v.at_place, v.came_from))
                    order by t.from_place_id = v.came_from desc limit 1) t
            where v.came_from <> v.at_place and lower(v.during) - v.ended < make_interval(mins => t.minutes)
            order by v.on_day, v.start_time limit {MostListed}
            """).ToListAsync(stop);
        return [.. found.Select(f => new VisitCheck(f.Id, f.OnDay, f.StartTime, f.Minutes, f.LearnerId, f.Learner, f.Provider, Enum.Parse<VisitState>(f.State))
        {
            Way = new(f.FromPlace, f.ToPlace, f.Needs, f.Has),
        })];
    }
}
