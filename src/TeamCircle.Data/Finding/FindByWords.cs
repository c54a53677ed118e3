using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Finding;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Finding;

/// <summary>
/// Finds learners, people, goals, routines and visits by a few letters, exactly within the rights of the one who looks: of their own teams
/// everything that the team reads; over a whole agency, for a director or administrator, names alone.
/// </summary>
/// <remarks>The database's functions look (Migrations/Sql/0021_finding.sql); what they give is read through the policies as everything else is.</remarks>
public sealed class FindByWords(Portal portal)
{
    /// <summary>So many of a kind are listed at most.</summary>
    public const int Most = 12;

    /// <param name="scope">What the request may reach.</param>
    public async Task<Found> RunAsync(Caller caller, Scope scope, Sought sought, CancellationToken stop = default)
    {
        List<Row> rows = [];
        IReadOnlyList<FoundVisit> visits = [];
        string[] words = [.. sought.Words];
        if (scope.Wall is Wall.Agency && sought.HasWords)
            rows.AddRange(await portal.ReadAsync(scope, db => AllAsync(db, caller, words, stop), stop));
        if (caller.AsTeam() is { Standings.Count: > 0 } own)
        {
            await portal.ReadAsync(Scope.Of(own, scope.Ground), async db =>
            {
                if (sought.HasWords)
                    rows.AddRange(await OwnAsync(db, caller, words, stop));
                if (sought.Day is { } day)
                    visits = await VisitsAsync(db, caller.AgencyId, day, sought, stop);
                return true;
            }, stop);
        }
        return new(
            Listed(rows, FoundKind.Learner, r => new FoundLearner(r.Id, r.Text, r.Detail!)),
            People(rows),
            Listed(rows, FoundKind.Goal, r => new FoundGoal(r.Id, r.Detail!, r.Text, r.Learner!)),
            Listed(rows, FoundKind.Routine, r => new FoundRoutine(r.Id, r.Text, r.HasEnded, r.Learner!)),
            new([.. visits.Take(Most)], More: visits.Count > Most));
    }

    private enum FoundKind
    {
        Learner,
        Person,
        Goal,
        Routine,
    }

    /// <param name="Text">A name; of a goal its statement.</param>
    /// <param name="Detail">A learner's code, a person's e-mail address, a goal's heading.</param>
    private sealed record Row(string Kind, int Id, int? LearnerId, bool Near, string Text, string? Detail, string? Learner, bool HasEnded);

    // Those that begin with the first word stand first; a person has a row for each learner and counts once.
    private static Task<List<Row>> OwnAsync(PortalDb db, Caller caller, string[] words, CancellationToken stop) => db.Database.SqlQuery<Row>(
        $"""
        select kind, id, learner_id, near, text, detail, learner, has_ended
        from (select t.*, dense_rank() over (partition by kind order by position({words[0]} in portal.plain(t.text)) <> 1, t.text, t.id) as place
              from (select f.kind, f.id, f.learner_id, f.near, l.name as learner, coalesce(not o.live, false) as has_ended,
                      case f.kind when 'Learner' then l.name when 'Person' then p.name when 'Goal' then g.statement else o.name end as text,
                      case f.kind when 'Learner' then l.code when 'Goal' then g.area end as detail
                    from portal.find_own({words}, {caller.Today}) f
                        join portal.learners l on l.agency_id = {caller.AgencyId} and l.id = f.learner_id
                        left join portal.people p on f.kind = 'Person' and p.agency_id = l.agency_id and p.id = f.id
                        left join portal.goals g on f.kind = 'Goal' and g.agency_id = l.agency_id and g.learner_id = l.id and g.id = f.id
                        left join portal.routines o on f.kind = 'Routine' and o.agency_id = l.agency_id and o.learner_id = l.id and o.id = f.id) t
              where t.text is not null) t
        where place <= {Most + 1} order by kind, place, learner
        """).ToListAsync(stop);

    private static Task<List<Row>> AllAsync(PortalDb db, Caller caller, string[] words, CancellationToken stop)
    {
        var everybody = caller.Is(Role.Administrator);
        return db.Database.SqlQuery<Row>(
            $"""
            select f.kind, f.id, null::int as learner_id, f.near, coalesce(l.name, p.name) as text, coalesce(l.code, case when {everybody} then p.email end) as detail,
                null as learner, false as has_ended
            from portal.find_all({words}, {caller.Today}, {everybody}, {Most + 1}) f
                left join portal.learners l on f.kind = 'Learner' and l.agency_id = {caller.AgencyId} and l.id = f.id
                left join portal.people p on f.kind = 'Person' and p.agency_id = {caller.AgencyId} and p.id = f.id
            where coalesce(l.name, p.name) is not null
            order by f.kind, text
            """).ToListAsync(stop);
    }

    private static async Task<IReadOnlyList<FoundVisit>> VisitsAsync(PortalDb db, int agency, LocalDate day, Sought sought, CancellationToken stop)
    {
        var visits = await (
            from v in db.Visits
            join l in db.Learners on new { v.AgencyId, Id = v.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { v.AgencyId, Id = v.ProviderId } equals new { p.AgencyId, p.Id }
            from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
            where v.AgencyId == agency && v.Live && v.OnDay == day
            orderby v.StartTime, l.Name
            select new FoundVisit(v.Id, v.StartTime, v.Minutes, l.Name, p.Name, v.Kind, s == null ? null : s.Discipline, v.State)).ToListAsync(stop);
        return [.. visits.Where(v => sought.AreAllIn(v.Learner, v.Provider))];
    }

    /// <summary>Of what both lists have, the agency's and one's own, each once; and nothing that is only nearly so where something is just so.</summary>
    private static FoundList<T> Listed<T>(List<Row> rows, FoundKind kind, Func<Row, T> shown)
    {
        var (fit, isNear) = Fitting(rows, kind);
        var once = fit.DistinctBy(r => r.Id).ToList();
        return new([.. once.Take(Most).Select(shown)], isNear, once.Count > Most);
    }

    private static FoundList<FoundPerson> People(List<Row> rows)
    {
        var (fit, isNear) = Fitting(rows, FoundKind.Person);
        var people = fit.GroupBy(r => r.Id).ToList();
        return new([.. people.Take(Most).Select(g => new FoundPerson(g.Key, g.First().Text, g.First().Detail,
            [.. g.Where(r => r.LearnerId is not null).Select(r => new NamedId(r.LearnerId!.Value, r.Learner!))]))], isNear, people.Count > Most);
    }

    private static (IReadOnlyList<Row> Rows, bool AreNear) Fitting(List<Row> rows, FoundKind kind)
    {
        var all = rows.Where(r => r.Kind == $"{kind}").ToLookup(r => r.Near);
        return all[false].Any() ? ([.. all[false]], false) : ([.. all[true]], all[true].Any());
    }
}
