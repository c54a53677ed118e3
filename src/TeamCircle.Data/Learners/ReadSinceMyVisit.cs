using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Learners;

/// <summary>What others did about a learner since a person's own last logged visit.</summary>
/// <param name="LastVisit">Its day; what happened on that day is among the items, since nobody knows whether it was before or after.</param>
/// <param name="Items">The newest first.</param>
public sealed record SinceMyVisit(LocalDate LastVisit, IReadOnlyList<NewsItem> Items);

public enum NewsKind
{
    Probes,
    Practices,
    Version,
    HoldSet,
    HoldEnded,
    Amendment,
    NewGoal,
    GoalChange,
    TeachPart,
}

/// <param name="What">The goal's heading, the routine's name, the reason of a hold, the code of a discipline or part, or what was written.</param>
/// <param name="About">The goal or the routine; the learner for the rest.</param>
/// <param name="By">Who, by name; null where no row says it.</param>
/// <param name="Count">How many probes or practices; the number of a version; 1 for the rest.</param>
public sealed record NewsItem(NewsKind Kind, LocalDate Day, string What, int About, string? By, int Count);

/// <summary>Reads what changed about a learner since the reader's last own logged visit: two statements.</summary>
public sealed class ReadSinceMyVisit(Portal portal)
{
    /// <summary>Null where the reader has logged no visit with the learner, or the scope does not reach the learner.</summary>
    public Task<SinceMyVisit?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, caller, learner, stop), stop);

    private static async Task<SinceMyVisit?> ReadAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var last = await db.Sessions
            .Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == learner && s.ProviderId == caller.PersonId && s.Live)
            .OrderByDescending(s => s.OnDay)
            .Select(s => new { s.OnDay, Zone = db.Agencies.First(a => a.Id == s.AgencyId).TimeZone }).FirstOrDefaultAsync(stop);
        if (last is null)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[last.Zone];
        var since = new Since(caller, learner, last.OnDay, zone.AtStartOfDay(last.OnDay).ToInstant());
        var rows = await db.Database.SqlQuery<Row>(Taken(since)).Concat(db.Database.SqlQuery<Row>(Written(since))).Concat(db.Database.SqlQuery<Row>(Planned(since))).ToListAsync(stop);
        return new(last.OnDay, [.. rows
            .Select(r => new NewsItem(Enum.Parse<NewsKind>(r.Kind), r.OnDay ?? r.At!.Value.InZone(zone).Date, r.What, r.About, r.By, r.Count))
            .OrderByDescending(i => i.Day).ThenBy(i => i.Kind).ThenBy(i => i.What, StringComparer.Ordinal)]);
    }

    private sealed record Since(Caller Who, int Learner, LocalDate Day, Instant Start)
    {
        public int Agency => Who.AgencyId;

        public int Me => Who.PersonId;
    }

    /// <param name="OnDay">Null with <paramref name="At"/> given, and the other way round.</param>
    private sealed record Row(string Kind, LocalDate? OnDay, Instant? At, string What, int About, string? By, int Count);

    private static FormattableString Taken(Since since) => $"""
        select 'Probes' as kind, max(p.on_day) as on_day, null::timestamptz as at, g.area as what, g.id as about,
               string_agg(distinct w.name, ', ' order by w.name) as by, count(*)::int as count
        from portal.probes p
        join portal.goals g on (g.agency_id, g.id) = (p.agency_id, p.goal_id)
        join portal.people w on (w.agency_id, w.id) = (p.agency_id, p.provider_id)
        where p.agency_id = {since.Agency} and p.learner_id = {since.Learner} and p.live and p.on_day >= {since.Day} and p.provider_id <> {since.Me}
        group by g.id, g.area
        union all
        select 'Practices', max(p.on_day), null, r.name, r.id, string_agg(distinct w.name, ', ' order by w.name), count(*)::int
        from portal.practices p
        join portal.routines r on (r.agency_id, r.id) = (p.agency_id, p.routine_id)
        join portal.people w on (w.agency_id, w.id) = (p.agency_id, p.provider_id)
        where p.agency_id = {since.Agency} and p.learner_id = {since.Learner} and p.live and p.observes is null and p.observes_code is null
            and p.on_day >= {since.Day} and p.provider_id <> {since.Me}
        group by r.id, r.name
        """;

    private static FormattableString Written(Since since) => $"""
        select 'Version' as kind, null::date as on_day, v.written_at as at, r.name as what, r.id as about, w.name as by, v.number as count
        from portal.routine_versions v
        join portal.routines r on (r.agency_id, r.id) = (v.agency_id, v.routine_id)
        join portal.people w on (w.agency_id, w.id) = (v.agency_id, v.written_by)
        where v.agency_id = {since.Agency} and v.learner_id = {since.Learner} and v.written_at >= {since.Start} and v.written_by <> {since.Me}
        union all
        select 'HoldSet', null, h.set_at, h.reason, h.learner_id, w.name, 1
        from portal.holds h join portal.people w on (w.agency_id, w.id) = (h.agency_id, h.set_by)
        where h.agency_id = {since.Agency} and h.learner_id = {since.Learner} and h.set_at >= {since.Start} and h.set_by <> {since.Me}
        union all
        select 'HoldEnded', null, h.ended_at, h.reason, h.learner_id, w.name, 1
        from portal.holds h join portal.people w on (w.agency_id, w.id) = (h.agency_id, h.ended_by)
        where h.agency_id = {since.Agency} and h.learner_id = {since.Learner} and h.ended_at >= {since.Start} and h.ended_by <> {since.Me}
        union all
        select 'TeachPart', t.written_on, null, t.part, t.learner_id, w.name, 1
        from portal.teach_parts t join portal.people w on (w.agency_id, w.id) = (t.agency_id, t.written_by)
        where t.agency_id = {since.Agency} and t.learner_id = {since.Learner} and t.written_on >= {since.Day} and t.written_by <> {since.Me}
        """;

    /// <summary>Of the plan: what was amended since, and what began since.</summary>
    private static FormattableString Planned(Since since) => $"""
        select 'Amendment' as kind, v.from_day as on_day, null::timestamptz as at, s.discipline as what, s.learner_id as about, null::text as by, 1 as count
        from portal.service_versions v join portal.services s on (s.agency_id, s.id) = (v.agency_id, v.service_id)
        where v.agency_id = {since.Agency} and v.learner_id = {since.Learner} and v.live and s.live
            and ((v.from_day > s.from_day and v.recorded_at >= {since.Start}) or (v.from_day >= {since.Day} and v.from_day <= {since.Who.Today}))
        union all
        select 'NewGoal', g.from_day, null, g.area, g.id, null, 1
        from portal.goals g
        where g.agency_id = {since.Agency} and g.learner_id = {since.Learner} and g.live and g.from_day >= {since.Day} and g.from_day <= {since.Who.Today}
        union all
        select 'GoalChange', c.on_day, null, g.area || ': ' || c.words, g.id, w.name, 1
        from portal.goal_changes c
        join portal.goals g on (g.agency_id, g.id) = (c.agency_id, c.goal_id)
        join portal.people w on (w.agency_id, w.id) = (c.agency_id, c.recorded_by)
        where c.agency_id = {since.Agency} and c.learner_id = {since.Learner} and c.live and c.on_day >= {since.Day} and c.recorded_by <> {since.Me}
        """;
}
