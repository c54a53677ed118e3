using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Benchmarks;

/// <summary>
/// The calendar week of a team with 60 series (12 learners, 5 people) against two floors written by hand: one query of the same rows, and one
/// query of the series whose rules are then expanded in code.
/// </summary>
internal static class WeekBenchmark
{
    private const int Learners = 12, Providers = 5, Weeks = 57;
    private const string Zone = "America/Los_Angeles";
    private static readonly LocalDate First = new(2026, 8, 17), Week = new(2026, 11, 23);

    public static Task RunAsync() => PrivateServer.UseAsync(null, MeasureAsync);

    private static async Task MeasureAsync(ServiceProvider services, string owner)
    {
        var portal = services.GetRequiredService<Portal>();
        var caller = await FillAsync(portal);
        await using (var database = new NpgsqlConnection(owner))
        {
            await database.OpenAsync();
            await new NpgsqlCommand("vacuum analyze", database).ExecuteNonQueryAsync();
        }
        var (read, scope) = (ActivatorUtilities.CreateInstance<ReadWeek>(services), Scope.Of(caller));
        var asked = new WeekAsked(null, true, Week);
        foreach (var (name, floor) in new (string, Func<Task<int>>)[] { ("the same rows", () => RowsAsync(portal, scope)), ("series, expanded", () => ExpandAsync(portal, scope)) })
        {
            var (rows, visits) = (0, 0);
            var rounds = await Rounds.MeasureAsync(async () => rows = await floor(), async () => visits = (await read.RunAsync(caller, scope, asked))!.Visits.Count);
            Console.WriteLine($"{visits} visits of the week; floor ({name}, {rows}) {rounds.FloorMedian:0.0} ms, week {rounds.WorkMedian:0.0} ms, ratio {rounds.Ratio}");
        }
    }

    private static async Task<int> RowsAsync(Portal portal, Scope scope)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead);
        await using var command = new NpgsqlCommand(
            """
            select v.id, v.on_day, v.start_time, v.minutes, v.learner_id, l.name, v.kind, s.discipline, v.provider_id, p.name, v.place, v.state, d.outcome, d.reason
            from portal.visits v
                join portal.learners l on (l.agency_id, l.id) = (v.agency_id, v.learner_id)
                join portal.people p on (p.agency_id, p.id) = (v.agency_id, v.provider_id)
                left join portal.services s on (s.agency_id, s.id) = (v.agency_id, v.service_id) and s.live
                left join portal.sessions d on (d.agency_id, d.visit_id) = (v.agency_id, v.id) and d.live
            where v.agency_id = $1 and v.live and v.on_day between $2 and $3 order by v.on_day, v.start_time
            """, work.Connection)
        { Parameters = { new() { Value = scope.AgencyId }, new() { Value = Week }, new() { Value = Week.PlusDays(6) } } };
        return await CountAsync(command, _ => 1);
    }

    private static async Task<int> ExpandAsync(Portal portal, Scope scope)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead);
        await using var command = new NpgsqlCommand(
            """
            select r.first_day, r.id, r.start_time, r.minutes, r.learner_id, l.name, r.kind, s.discipline, r.provider_id, p.name, r.place
            from portal.series r
                join portal.learners l on (l.agency_id, l.id) = (r.agency_id, r.learner_id)
                join portal.people p on (p.agency_id, p.id) = (r.agency_id, r.provider_id)
                left join portal.services s on (s.agency_id, s.id) = (r.agency_id, r.service_id) and s.live
            where r.agency_id = $1 and r.live and r.first_day <= $2
            """, work.Connection)
        { Parameters = { new() { Value = scope.AgencyId }, new() { Value = Week.PlusDays(6) } } };
        return await CountAsync(command, row =>
        {
            var first = row.GetFieldValue<LocalDate>(0);
            return Enumerable.Range(0, 7).Count(day => Period.DaysBetween(first, Week.PlusDays(day)) % 7 == 0); // FREQ=WEEKLY
        });
    }

    private static async Task<int> CountAsync(NpgsqlCommand command, Func<NpgsqlDataReader, int> visits)
    {
        await using var rows = await command.ExecuteReaderAsync();
        var count = 0;
        var values = new object[rows.FieldCount];
        while (await rows.ReadAsync())
        {
            rows.GetValues(values);
            count += visits(rows);
        }
        return count;
    }

    /// <summary>Each learner is with each person once a week, on different days; a person's visits of a day follow each other by the hour.</summary>
    private static async Task<Caller> FillAsync(Portal portal)
    {
        int agency;
        await using (var begin = await portal.OpenAsync(new Scope(Wall.Agency, 0, 0, [], true, "a benchmark"), IsolationLevel.ReadCommitted))
        {
            agency = await begin.Db.Database.SqlQuery<int>($"select portal.make_agency('WEEK', 'Tallowfern Education Cooperative', {Zone}) as \"Value\"").SingleAsync();
            await begin.CommitAsync();
        }
        var terminal = await portal.ReadAsync(new Scope(Wall.Agency, agency, 0, [], true, "a benchmark"), db => db.People.Select(p => p.Id).SingleAsync());
        await using var work = await portal.OpenAsync(new Scope(Wall.Agency, agency, terminal, [], true, "a benchmark"), IsolationLevel.ReadCommitted);
        var people = await AddAsync(work.Db, Enumerable.Range(0, Providers).Select(p => new PersonRow { AgencyId = agency, Name = $"Person {p}", Email = $"person{p}@tallowfern.example" }));
        var learners = await AddAsync(work.Db, Enumerable.Range(0, Learners).Select(l => new LearnerRow { AgencyId = agency, Code = $"L{l}", Name = $"Learner {l}", MostMinutesADay = 200 }));
        await AddAsync(work.Db, learners.SelectMany(l => people.Select(p => new RelationRow { AgencyId = agency, LearnerId = l.Id, PersonId = p.Id, Kind = Relation.Team, FromDay = First })));
        for (var l = 0; l < Learners; l++)
            await AddSeriesAsync(work.Db, agency, learners[l].Id, l, people);
        await work.CommitAsync();
        return new(agency, people[0].Id, people[0].Name, new HashSet<Role> { Role.Provider }, [.. learners.Select(l => new Standing(l.Id, Relation.Team))], Week);
    }

    private static async Task AddSeriesAsync(PortalDb db, int agency, int learner, int number, List<PersonRow> people)
    {
        var plan = (await AddAsync(db, [new PlanRow { AgencyId = agency, LearnerId = learner, StartDay = First, EndDay = First.PlusDays(400) }]))[0];
        for (var p = 0; p < people.Count; p++)
        {
            var (day, start) = (First.PlusDays((number + p) % 5), new LocalTime(8 + number / 5, 0));
            var service = (await AddAsync(db, [new ServiceRow { AgencyId = agency, LearnerId = learner, PlanId = plan.Id, Code = $"S{number}-{p}", Discipline = Discipline.Vision, FromDay = First, ToDay = plan.EndDay }]))[0];
            var series = (await AddAsync(db, [new SeriesRow { AgencyId = agency, LearnerId = learner, ServiceId = service.Id, ProviderId = people[p].Id, Rule = "FREQ=WEEKLY", FirstDay = day, StartTime = start, Minutes = 30, Zone = Zone, WrittenTo = plan.EndDay }]))[0];
            await AddAsync(db, Enumerable.Range(0, Weeks).Select(week =>
            {
                var visit = new VisitRow { AgencyId = agency, Id = Guid.CreateVersion7(), LearnerId = learner, ServiceId = service.Id, ProviderId = people[p].Id, SeriesId = series.Id, Zone = Zone, LearnersTime = true };
                visit.TakePlace(day.PlusWeeks(week), start, 30);
                visit.OriginalStart = visit.OnDay + start;
                return visit;
            }));
        }
    }

    private static async Task<List<T>> AddAsync<T>(PortalDb db, IEnumerable<T> rows) where T : class
    {
        List<T> added = [.. rows];
        db.AddRange(added);
        await db.SaveChangesAsync();
        return added;
    }
}
