using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Disputes;

/// <summary>Reads the visits of a span with their stories and the road around them, in bulk.</summary>
internal sealed class FactsOfVisits(PortalDb db, int agency, int learner, LocalDate first, LocalDate last, DateTimeZone zone)
{
    private sealed record Read(
        Guid Id, LocalDate OnDay, LocalTime StartTime, int Minutes, string State, bool Live, string Kind, string? Discipline, string? Code, int ProviderId,
        string Place, string? CalledOff, LocalTime? PlannedStart, int? PlannedMinutes, Instant RecordedAt)
    {
        /// <summary>As it stands.</summary>
        public VisitVersion Version => VisitTrail.Version(RecordedAt, null, State, Live, OnDay, StartTime, Minutes, ProviderId, Place, CalledOff);

        /// <summary>As it was scheduled, for one that came in a file and left no change; null where nobody had scheduled it.</summary>
        public VisitVersion? Scheduled => Version.Standing != VisitStanding.Logged ? Version
            : PlannedStart is { } start ? Version with { Standing = VisitStanding.Planned, Start = start, Minutes = PlannedMinutes ?? Minutes } : null;
    }

    public async Task<IReadOnlyList<FactsVisit>> ReadAsync(IReadOnlyList<RecordHold> holds, CancellationToken stop)
    {
        var visits = await VisitsAsync(stop);
        Guid[] ids = [.. visits.Select(v => v.Id)];
        var entries = await EntriesAsync(ids, stop);
        var trail = await VisitTrail.ReadAsync(db, agency, ids, [.. entries.SelectMany(e => e).Select(e => e.Id)], stop);
        var travel = (await TravelAsync(stop)).ToDictionary(t => t.VisitId);
        var notes = new SameNotes(entries);
        return [.. visits.Select(visit =>
        {
            VisitEntry[] own = [.. entries[visit.Id]];
            var versions = trail.Of(visit.Id) is { Count: > 0 } changed ? changed : visit.Scheduled is { } scheduled ? [scheduled] : [];
            var standing = own.FirstOrDefault(e => trail.Stands(e.Id) && !Array.Exists(own, o => o.Replaces == e.Id));
            return new FactsVisit(
                visit.Id, visit.OnDay, visit.StartTime, visit.Minutes, visit.Version.Standing, Enum.Parse<VisitKind>(visit.Kind),
                visit.Discipline is { } discipline ? Enum.Parse<Discipline>(discipline) : null, visit.Code, visit.ProviderId,
                VisitStory.Of(versions, own, trail.TakenBack(own), zone), standing, travel.GetValueOrDefault(visit.Id), notes.Others(standing),
                Array.Exists(own, e => e.Replaces is null && holds.Any(h => RecordHoldRules.WasUnder(h, e.Day, e.At))));
        })];
    }

    /// <summary>Those that stand on one of the days, and those that once did.</summary>
    private Task<List<Read>> VisitsAsync(CancellationToken stop) => db.Database.SqlQuery<Read>(
        $"""
        select v.id, v.on_day, v.start_time, v.minutes, v.state, v.live, v.kind, s.discipline, s.code, v.provider_id, v.place, v.called_off,
               v.planned_start, v.planned_minutes, v.recorded_at
        from portal.visits v left join portal.services s on s.agency_id = v.agency_id and s.id = v.service_id
        where v.agency_id = {agency} and v.learner_id = {learner} and (v.on_day between {first} and {last} or v.id in (
            select c.row_key::uuid from portal.changes c
            where c.agency_id = {agency} and c.learner_id = {learner} and c.table_name = 'visits' and (c.before ->> 'on_day')::date between {first} and {last}))
        """).ToListAsync(stop);

    private async Task<ILookup<Guid, VisitEntry>> EntriesAsync(Guid[] visits, CancellationToken stop) =>
        (await db.Sessions.Where(s => s.AgencyId == agency && s.LearnerId == learner && visits.Contains(s.VisitId)).OrderBy(s => s.RecordedAt).ThenBy(s => s.Id).ToListAsync(stop))
        .ToLookup(s => s.VisitId, s => new VisitEntry(
            s.Id, s.RecordedAt, s.RecordedBy, s.Outcome, s.OnDay, s.StartTime, s.EndTime, s.Credited, s.Observed, s.Reason, s.ProviderId, s.Place,
            s.Note, s.Replaces, s.CorrectionReason)
        { FromFile = s.Origin == SessionOrigin.File });

    private Task<List<TravelAround>> TravelAsync(CancellationToken stop) =>
        db.Database.SqlQuery<TravelAround>($"select * from portal.travel_around({learner}, {first}, {last})").ToListAsync(stop);
}

/// <summary>The notes that stand word for word at several visits of the span: a question, since a note may be the same because the hour was.</summary>
internal sealed class SameNotes(ILookup<Guid, VisitEntry> entries)
{
    private readonly Dictionary<string, int> _visits = entries
        .SelectMany(v => v.Select(e => e.Note).OfType<string>().Distinct()).GroupBy(n => n).ToDictionary(g => g.Key, g => g.Count());

    /// <summary>How many other visits have the note of this entry; 0 where it has none.</summary>
    public int Others(VisitEntry? entry) => entry?.Note is { } note ? _visits[note] - 1 : 0;
}
