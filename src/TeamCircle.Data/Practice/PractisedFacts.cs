using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Practice;

/// <summary>All that was practised of one routine, or for one goal, for what is worked out over many practices. What a second observer scored
/// is not among it: those trials are there already.</summary>
/// <param name="Versions">By routine and number.</param>
/// <param name="People">Names of the staff who practised. The learner's family is never among them.</param>
internal sealed record PractisedFacts(
    IReadOnlyList<VersionFact> Versions, IReadOnlyList<PractisedOnce> Practices, IReadOnlyList<PractisedTrial> Trials, IReadOnlyDictionary<int, string> People)
{
    /// <summary>Of one routine. Four statements.</summary>
    public static Task<PractisedFacts> OfRoutineAsync(PortalDb db, int agency, int learner, int routine, CancellationToken stop) =>
        ReadAsync(db, agency, learner, null, db.RoutineVersions.Where(v => v.RoutineId == routine), stop);

    /// <summary>Of the trials that served a goal, over all routines. Four statements.</summary>
    public static Task<PractisedFacts> OfGoalAsync(PortalDb db, int agency, int learner, int goal, CancellationToken stop)
    {
        var serves = $"{{\"steps\":[{{\"goals\":[{goal}]}}]}}";
        return ReadAsync(db, agency, learner, goal, db.RoutineVersions.Where(v => EF.Functions.JsonContains(v.Content, serves)), stop);
    }

    /// <summary>The waits of each routine's newest version.</summary>
    /// <param name="goal">Only at the steps that serve it; null: at all.</param>
    public IReadOnlyList<WaitInUse> Waits(int? goal) => [.. Versions.GroupBy(v => v.Routine).SelectMany(r => WaitInUse.Of(r.Key, r.Last().Content, goal))];

    /// <inheritdoc cref="Lengthened.LastOf"/>
    public Lengthened? Lengthened(int? goal) =>
        Core.Practice.Lengthened.LastOf(Versions.Select(v => new WaitVersion(v.Routine, v.Name, v.Number, v.On, WaitInUse.Of(v.Routine, v.Content, goal))));

    private static async Task<PractisedFacts> ReadAsync(
        PortalDb db, int agency, int learner, int? goal, IQueryable<RoutineVersionRow> serving, CancellationToken stop)
    {
        var versions = await VersionsAsync(db, serving.Where(v => v.AgencyId == agency && v.LearnerId == learner), stop);
        int[] ids = [.. versions.Select(v => v.Id)];
        var practices = await PracticesAsync(db, agency, learner, versions, stop);
        var trials = await (
            from t in db.Trials
            join p in db.Practices on new { t.AgencyId, t.LearnerId, Id = t.PracticeId } equals new { p.AgencyId, p.LearnerId, p.Id }
            where t.AgencyId == agency && t.LearnerId == learner && t.Live && p.Live && p.ObservesCode == null && ids.Contains(p.VersionId)
                && (goal == null || t.Goals.Contains(goal.Value))
            select new { t.PracticeId, t.Step, t.Ending, t.Counts, t.AtOnce, t.Remembered, t.PromptsNeeded, t.Response, t.TimeToRespond, t.CensoredAt, t.WaitKept })
            .ToListAsync(stop);
        var people = await db.People.Where(p => p.AgencyId == agency && !db.Relations.Any(
                r => r.AgencyId == agency && r.LearnerId == learner && r.PersonId == p.Id && r.Kind == Relation.Family))
            .ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        return new(
            versions, [.. practices.Values],
            [.. trials.Select(t => new PractisedTrial(
                practices[t.PracticeId], t.Step, t.Ending, t.Counts, t.AtOnce, t.Remembered, t.PromptsNeeded, t.Response, t.TimeToRespond, t.CensoredAt, t.WaitKept))],
            people);
    }

    private static async Task<List<VersionFact>> VersionsAsync(PortalDb db, IQueryable<RoutineVersionRow> serving, CancellationToken stop)
    {
        var rows = await (
            from v in serving
            join r in db.Routines on new { v.AgencyId, v.LearnerId, Id = v.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
            join a in db.Agencies on v.AgencyId equals a.Id
            orderby v.RoutineId, v.Number
            select new { v.Id, v.RoutineId, r.Name, v.Number, v.WrittenAt, a.TimeZone, v.Content }).ToListAsync(stop);
        return [.. rows.Select(v => new VersionFact(
            v.Id, v.RoutineId, v.Name, v.Number, v.WrittenAt.InZone(DateTimeZoneProviders.Tzdb[v.TimeZone]).Date, RoutineContent.Read(v.Content)))];
    }

    // the conditions lie in the practice's own document: it is opened once, and only what is asked of it leaves the database
    private static async Task<Dictionary<Guid, PractisedOnce>> PracticesAsync(
        PortalDb db, int agency, int learner, List<VersionFact> versions, CancellationToken stop)
    {
        var byId = versions.ToDictionary(v => v.Id);
        int[] ids = [.. byId.Keys];
        var rows = await db.Database.SqlQuery<PracticeFact>(
            $$"""
            with opened as materialized (
                select id, on_day, provider_id, version_id, record -> 'conditions' as conditions, record -> 'steps' as steps
                  from portal.practices
                 where agency_id = {{agency}} and learner_id = {{learner}} and live and observes_code is null and version_id = any({{ids}}))
            select id, on_day, provider_id, version_id, conditions ->> 'side' as side, conditions ->> 'position' as position,
                   conditions #>> '{state,start}' as state,
                   coalesce(jsonb_array_length(jsonb_path_query_array(steps, '$[*] ? (@.done == "asWritten")')), 0) as as_written
              from opened
            """).ToListAsync(stop);
        return rows.ToDictionary(p => p.Id, p => new PractisedOnce(
            p.Id, p.OnDay, p.ProviderId, byId[p.VersionId].Routine, byId[p.VersionId].Number, new(p.AsWritten, byId[p.VersionId].Content.Steps.Count))
        {
            Side = p.Side,
            Position = p.Position,
            State = Enum.TryParse<StateOfLearner>(p.State, ignoreCase: true, out var state) ? state : null,
            Place = byId[p.VersionId].Content.Place,
        });
    }

    private sealed record PracticeFact(
        Guid Id, LocalDate OnDay, int ProviderId, int VersionId, string? Side, string? Position, string? State, int AsWritten);
}

/// <summary>One version of a routine's card.</summary>
/// <param name="On">When it was written, in the agency's zone.</param>
internal sealed record VersionFact(int Id, int Routine, string Name, int Number, LocalDate On, RoutineContent Content);
