using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Disputes;

namespace TeamCircle.Data.Disputes;

/// <summary>Reads what bears on the days of a span beside visits, in two statements.</summary>
internal sealed class FactsAround(PortalDb db, int agency, int learner, LocalDate first, LocalDate last, DateTimeZone zone)
{
    private sealed record Read(string Kind, LocalDate? FromDay, LocalDate? ToDay, string Words, bool Live, Instant At, int? By, Instant? Ended);

    /// <param name="Facts">Each with its first day within the span.</param>
    public sealed record Answer(IReadOnlyList<FactAround> Facts, IReadOnlyList<RecordHold> RecordHolds);

    public async Task<Answer> ReadAsync(CancellationToken stop)
    {
        var rows = await RowsAsync(stop);
        var facts = rows.Select(Fact).Concat(await DecisionsAsync(stop)).Where(f => f.From <= last && (f.Until is null || f.Until >= first));
        return new(
            [.. facts.Select(f => f with { From = LocalDate.Max(f.From, first) })],
            [.. rows.Where(r => r.Kind == nameof(AroundKind.RecordHold)).Select(r => new RecordHold(r.FromDay!.Value, r.ToDay!.Value, r.At, r.Ended))]);
    }

    private Task<List<Read>> RowsAsync(CancellationToken stop) => db.Database.SqlQuery<Read>(
        $"""
        select 'Closure' as kind, c.on_day as from_day, c.on_day as to_day, c.name as words, c.live, c.recorded_at as at, null::int as by, null::timestamptz as ended
        from portal.closures c where c.agency_id = {agency} and c.on_day between {first} and {last}
        union all
        select 'Away', a.from_day, a.until_day, a.reason, a.live, a.recorded_at, a.recorded_by, null
        from portal.aways a where a.agency_id = {agency} and a.learner_id = {learner} and a.from_day <= {last} and coalesce(a.until_day, 'infinity') >= {first}
        union all
        select 'Hold', null, null, h.reason, true, h.set_at, h.set_by, h.ended_at from portal.holds h where h.agency_id = {agency} and h.learner_id = {learner}
        union all
        select 'RecordHold', r.from_day, r.to_day, r.reason, true, r.set_at, r.set_by, r.ended_at
        from portal.record_holds r where r.agency_id = {agency} and r.learner_id = {learner} and r.from_day <= {last} and r.to_day >= {first}
        """).ToListAsync(stop);

    private FactAround Fact(Read row)
    {
        var kind = Enum.Parse<AroundKind>(row.Kind);
        var words = kind is AroundKind.Away && Core.Words.Find<Core.Calendar.AwayReason>(row.Words) is { } away ? Core.Words.Of(away) : row.Words;
        return new(
            kind, row.FromDay ?? row.At.InZone(zone).Date, kind is AroundKind.Hold ? row.Ended?.InZone(zone).Date : row.ToDay,
            row.Live ? words : $"{words} (taken back)", row.At, row.By);
    }

    private async Task<IEnumerable<FactAround>> DecisionsAsync(CancellationToken stop)
    {
        var rows = await (
            from d in db.Decisions
            from s in db.Services.IgnoreQueryFilters().Where(s => s.AgencyId == d.AgencyId && s.Id == d.ServiceId).DefaultIfEmpty()
            from g in db.Goals.IgnoreQueryFilters().Where(g => g.AgencyId == d.AgencyId && g.Id == d.GoalId).DefaultIfEmpty()
            where d.AgencyId == agency && d.LearnerId == learner && d.OnDay >= first && d.OnDay <= last
            select new { Row = d, About = s == null ? g.Code : s.Code }).ToListAsync(stop);
        return rows.Select(r => new FactAround(AroundKind.Decision, r.Row.OnDay, r.Row.OnDay, "", r.Row.RecordedAt, r.Row.RecordedBy)
        {
            Decision = new(
                r.About, r.Row.GoalId is not null, r.Row.Amount, r.Row.Kind, r.Row.DecidedOn, r.Row.DecidedBy, r.Row.FamilyToldOn, r.Row.Note, r.Row.Live),
        });
    }
}
