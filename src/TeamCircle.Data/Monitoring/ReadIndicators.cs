using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Monitoring;

/// <summary>What an agency may ask about in a span of days. Each figure is a question, never a finding about a person.</summary>
/// <param name="Providers">By name.</param>
/// <param name="Causes">What was not given, by reason and sending district, the most minutes first.</param>
/// <param name="Vacancies">Services with nobody named on some of the days, by sending district.</param>
public sealed record Indicators(IReadOnlyList<ProviderIndicators> Providers, IReadOnlyList<Cause> Causes, IReadOnlyList<Vacancy> Vacancies);

/// <param name="Given">Visits given.</param>
/// <param name="FromPlan">Those of them that were logged with the planned times.</param>
/// <param name="Entries">First entries made on a page or by a device: what came in a file says nothing of when it was written down.</param>
/// <param name="Median">The delay within which half of them were made, in minutes from the end of the visit; null where there are none.</param>
/// <param name="Most">The same for nine of ten.</param>
/// <param name="SameNotes">Visits whose note stands word for word at another visit of the same person.</param>
/// <param name="NotDrivenDays">Days on which the road from one visit to the next takes longer than there was time.</param>
/// <param name="OnAwayDays">Visits given on a day on which the learner is recorded as away.</param>
public sealed record ProviderIndicators(
    int PersonId, string Name, int Given, int FromPlan, int Entries, int? Median, int? Most, int SameNotes, int NotDrivenDays, int OnAwayDays)
{
    /// <summary>Rounded to whole percent, half up; null where nothing was given.</summary>
    public int? FromPlanPercent => Given == 0 ? null : (200 * FromPlan + Given) / (2 * Given);
}

/// <param name="District">Null where nobody said.</param>
/// <param name="Minutes">The planned ones.</param>
public sealed record Cause(string? District, Reason? Reason, int Visits, int Minutes);

/// <param name="Services">How many had nobody named on some day.</param>
/// <param name="Days">Days of the calendar without anybody, over all of them.</param>
public sealed record Vacancy(string? District, int Services, int Days);

/// <summary>Reads <see cref="Indicators"/> by sums in the database: a fixed number of statements, whatever the agency's size.</summary>
public sealed class ReadIndicators(Portal portal)
{
    private sealed record Sums(int PersonId, string Name, int Given, int FromPlan, int Entries, int? Median, int? Most);

    private sealed record Count(int PersonId, int Number);

    private sealed record CauseRead(string? District, string? Reason, int Visits, int Minutes);

    /// <param name="first">Both days belong to the span.</param>
    public Task<Indicators> RunAsync(Scope scope, LocalDate first, LocalDate last, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, scope.AgencyId, first, last).RunAsync(stop), stop);

    private sealed class Query(PortalDb db, int agency, LocalDate first, LocalDate last)
    {
        public async Task<Indicators> RunAsync(CancellationToken stop)
        {
            var sums = await SumsAsync(stop);
            var (notes, roads, aways) = (await NotesAsync(stop), await RoadsAsync(stop), await AwaysAsync(stop));
            return new(
                [.. sums.OrderBy(s => s.Name, StringComparer.CurrentCulture).Select(s => new ProviderIndicators(
                    s.PersonId, s.Name, s.Given, s.FromPlan, s.Entries, s.Median, s.Most,
                    notes.GetValueOrDefault(s.PersonId), roads.GetValueOrDefault(s.PersonId), aways.GetValueOrDefault(s.PersonId)))],
                await CausesAsync(stop), await VacanciesAsync(stop));
        }

        /// <summary>The delay is the nearest rank (Core/Disputes/EntryDelay), from the end of the visit as it stands.</summary>
        private Task<List<Sums>> SumsAsync(CancellationToken stop) => db.Database.SqlQuery<Sums>(
            $"""
            select p.id as person_id, p.name, count(*) filter (where s.live and s.outcome = 'Given')::int as given,
                count(*) filter (where s.live and s.outcome = 'Given' and not s.observed)::int as from_plan,
                count(*) filter (where s.replaces is null and s.origin <> 'File')::int as entries,
                percentile_disc(0.5) within group (order by d.delay) filter (where s.replaces is null and s.origin <> 'File') as median,
                percentile_disc(0.9) within group (order by d.delay) filter (where s.replaces is null and s.origin <> 'File') as most
            from portal.sessions s
                join portal.visits v on v.agency_id = s.agency_id and v.id = s.visit_id
                join portal.people p on p.agency_id = s.agency_id and p.id = s.provider_id
                cross join lateral (select greatest(0, floor(extract(epoch from s.recorded_at - upper(v.during)) / 60))::int as delay) d
            where s.agency_id = {agency} and s.on_day between {first} and {last}
            group by p.id, p.name
            """).ToListAsync(stop);

        private Task<Dictionary<int, int>> NotesAsync(CancellationToken stop) => CountsAsync(
            $"""
            select n.provider_id as person_id, sum(n.visits)::int as number from (
                select s.provider_id, count(*) as visits from portal.sessions s
                where s.agency_id = {agency} and s.on_day between {first} and {last} and s.live and s.note <> ''
                group by s.provider_id, md5(s.note) having count(*) > 1) n
            group by n.provider_id
            """, stop);

        // The same pairs as the audit's list of visits to check (Calendar/ReadVisitChecks), of visits that were logged, counted by day.
        private Task<Dictionary<int, int>> RoadsAsync(CancellationToken stop) => CountsAsync(
            $"""
            with placed as (
                select v.provider_id, v.on_day, v.during, v.id, coalesce(v.place_id, l.place_id) as here
                from portal.visits v left join portal.learner_places l
                    on l.agency_id = v.agency_id and l.learner_id = v.learner_id and l.kind = v.place and l.live
                where v.agency_id = {agency} and v.on_day between {first} and {last} and v.live and v.takes_time and v.state = 'Logged'
            ), pairs as (
                select p.*, lag(here) over w as came_from, lag(upper(during)) over w as ended
                from placed p where here is not null window w as (partition by provider_id, on_day order by during, id)
            )
            select p.provider_id as person_id, count(distinct p.on_day)::int as number
            from pairs p cross join lateral (
                select t.minutes from portal.travel_times t where t.agency_id = {agency} and t.live
                    and ((t.from_place_id, t.to_place_id) = (p.came_from, p.here) or (t.from_place_id, t.to_place_id) = (p.here, p.came_from))
                order by t.from_place_id = p.came_from desc limit 1) t
            where p.came_from <> p.here and lower(p.during) - p.ended < make_interval(mins => t.minutes)
            group by p.provider_id
            """, stop);

        private Task<Dictionary<int, int>> AwaysAsync(CancellationToken stop) => CountsAsync(
            $"""
            select s.provider_id as person_id, count(*)::int as number from portal.sessions s
            where s.agency_id = {agency} and s.on_day between {first} and {last} and s.live and s.outcome = 'Given' and exists (
                select from portal.aways a where a.agency_id = s.agency_id and a.learner_id = s.learner_id and a.live
                    and a.from_day <= s.on_day and coalesce(a.until_day, 'infinity') >= s.on_day)
            group by s.provider_id
            """, stop);

        private async Task<Dictionary<int, int>> CountsAsync(FormattableString sql, CancellationToken stop) =>
            (await db.Database.SqlQuery<Count>(sql).ToListAsync(stop)).ToDictionary(c => c.PersonId, c => c.Number);

        private async Task<IReadOnlyList<Cause>> CausesAsync(CancellationToken stop) => [.. (await db.Database.SqlQuery<CauseRead>(
            $"""
            select l.sending_district as district, s.reason, count(*)::int as visits, sum(coalesce(v.planned_minutes, v.minutes))::int as minutes
            from portal.sessions s
                join portal.visits v on v.agency_id = s.agency_id and v.id = s.visit_id
                join portal.learners l on l.agency_id = s.agency_id and l.id = s.learner_id
            where s.agency_id = {agency} and s.on_day between {first} and {last} and s.live and s.outcome in ('Offered', 'NotOffered')
            group by l.sending_district, s.reason order by 4 desc, 1, 2
            """).ToListAsync(stop)).Select(c => new Cause(c.District, c.Reason is { } reason ? Enum.Parse<Reason>(reason) : null, c.Visits, c.Minutes))];

        private Task<List<Vacancy>> VacanciesAsync(CancellationToken stop) => db.Database.SqlQuery<Vacancy>(
            $"""
            with days as (
                select s.id, s.learner_id, daterange(greatest(s.from_day, {first}), least(s.to_day, {last}), '[]') as runs
                from portal.services s where s.agency_id = {agency} and s.live and s.from_day <= {last} and s.to_day >= {first}
            ), missing as (
                select d.learner_id, (upper(d.runs) - lower(d.runs)) - coalesce((
                    select sum(upper(r) - lower(r)) from unnest((
                        select range_agg(daterange(a.from_day, a.to_day, '[]') * d.runs) from portal.assignments a
                        where a.agency_id = {agency} and a.service_id = d.id and a.live)) r where not isempty(r)), 0) as without
                from days d
            )
            select l.sending_district as district, count(*)::int as services, sum(m.without)::int as days
            from missing m join portal.learners l on l.agency_id = {agency} and l.id = m.learner_id
            where m.without > 0 group by l.sending_district order by 3 desc, 1
            """).ToListAsync(stop);
    }
}
