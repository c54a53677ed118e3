using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Disputes;

/// <summary>What the trail of changes says of some visits, and of the entries about them, read at once.</summary>
internal sealed class VisitTrail
{
    private sealed record Read(
        long Id, string TableName, string RowKey, Instant At, int PersonId, bool IsBefore, LocalDate? OnDay, LocalTime? StartTime, int? Minutes,
        int? ProviderId, string? Place, string? State, string? CalledOff, bool? Live, string? TakenBackReason);

    private readonly ILookup<Guid, VisitVersion> _versions;
    private readonly Dictionary<Guid, EntryTakenBack> _takenBack;

    private VisitTrail(IReadOnlyList<Read> rows)
    {
        _versions = rows.Where(r => r.TableName == "visits").ToLookup(r => Guid.Parse(r.RowKey), r => Version(
            r.At, r.IsBefore ? null : r.PersonId, r.State!, r.Live!.Value, r.OnDay!.Value, r.StartTime!.Value, r.Minutes!.Value, r.ProviderId!.Value, r.Place!, r.CalledOff));
        _takenBack = rows.Where(r => r is { TableName: "sessions", Live: false, TakenBackReason: not null, IsBefore: false })
            .GroupBy(r => Guid.Parse(r.RowKey)).ToDictionary(g => g.Key, g => new EntryTakenBack(g.Key, g.First().At, g.First().PersonId, g.First().TakenBackReason));
    }

    /// <summary>The versions of a visit, the oldest first: one that came in a file begins with what its first change replaced; none where it never changed.</summary>
    public IReadOnlyList<VisitVersion> Of(Guid visit) => [.. _versions[visit]];

    public bool Stands(Guid entry) => !_takenBack.ContainsKey(entry);

    public IReadOnlyList<EntryTakenBack> TakenBack(IEnumerable<VisitEntry> entries) => [.. entries.Select(e => _takenBack.GetValueOrDefault(e.Id)).OfType<EntryTakenBack>()];

    public static async Task<VisitTrail> ReadAsync(PortalDb db, int agency, Guid[] visits, Guid[] entries, CancellationToken stop)
    {
        string[] visitKeys = [.. visits.Select(v => v.ToString())], entryKeys = [.. entries.Select(e => e.ToString())];
        return new(await db.Database.SqlQuery<Read>(
            $"""
            select c.id, c.table_name, c.row_key, case when side.is_before then f.recorded_at else c.at end as at, c.person_id, side.is_before,
                   f.on_day, f.start_time, f.minutes, f.provider_id, f.place, f.state, f.called_off, f.live, f.taken_back_reason
            from portal.changes c
                cross join lateral (values (true, c.before), (false, c.after)) as side (is_before, facts)
                cross join lateral jsonb_to_record(side.facts) as f (
                    on_day date, start_time time, minutes int, provider_id int, place text, state text, called_off text, live boolean,
                    taken_back_reason text, recorded_at timestamptz)
            where c.agency_id = {agency} and ((c.table_name = 'visits' and c.row_key = any ({visitKeys})) or (c.table_name = 'sessions' and c.row_key = any ({entryKeys})))
                and side.facts is not null
                and (not side.is_before or not exists (
                    select from portal.changes e where e.agency_id = c.agency_id and e.table_name = c.table_name and e.row_key = c.row_key and e.id < c.id))
            order by c.id, side.is_before desc
            """).ToListAsync(stop));
    }

    public static VisitVersion Version(
        Instant at, int? by, string state, bool live, LocalDate day, LocalTime start, int minutes, int provider, string place, string? calledOff) => new(
        at, by,
        !live ? VisitStanding.Gone : Enum.Parse<VisitState>(state) switch
        {
            VisitState.Planned => VisitStanding.Planned,
            VisitState.Logged => VisitStanding.Logged,
            _ => VisitStanding.CalledOff,
        },
        day, start, minutes, provider, Enum.Parse<Place>(place), calledOff is null ? null : Enum.Parse<Reason>(calledOff));
}
