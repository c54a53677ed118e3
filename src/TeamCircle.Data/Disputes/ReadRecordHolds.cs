using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Disputes;

/// <summary>A hold on a learner's records.</summary>
/// <param name="SetOn">In the agency's own time, as when it ended.</param>
/// <param name="EndedOn">Null while it stands, with the two that follow.</param>
/// <param name="MayEnd">Whether the reader may end it.</param>
public sealed record RecordHoldShown(
    int Id, int Version, LocalDate From, LocalDate To, string Reason, string SetBy, LocalDateTime SetOn, LocalDateTime? EndedOn, string? EndedBy, string? EndedWord, bool MayEnd)
{
    public bool Keeps(LocalDate day) => EndedOn is null && From <= day && day <= To;
}

/// <param name="Holds">Those that stand first, then the latest first.</param>
public sealed record RecordHoldsPage(int LearnerId, string Learner, IReadOnlyList<RecordHoldShown> Holds, bool MaySet);

/// <summary>Reads the holds on a learner's records.</summary>
public sealed class ReadRecordHolds(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<RecordHoldsPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
        await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is { } name
            ? new RecordHoldsPage(learner, name, await AllAsync(db, caller, learner, ended: true, stop), RecordHoldRules.MaySet(caller, learner))
            : null, stop);

    /// <param name="ended">Those that ended too.</param>
    internal static async Task<IReadOnlyList<RecordHoldShown>> AllAsync(PortalDb db, Caller caller, int learner, bool ended, CancellationToken stop)
    {
        var rows = await (
            from h in db.RecordHolds
            join a in db.Agencies on h.AgencyId equals a.Id
            join p in db.People on new { h.AgencyId, Id = h.SetBy } equals new { p.AgencyId, p.Id } into setters
            from setter in setters.DefaultIfEmpty()
            join e in db.People on new { h.AgencyId, Id = h.EndedBy } equals new { e.AgencyId, Id = (int?)e.Id } into enders
            from ender in enders.DefaultIfEmpty()
            where h.AgencyId == caller.AgencyId && h.LearnerId == learner && (ended || h.EndedAt == null)
            orderby h.EndedAt != null, h.Id descending
            select new { Row = h, a.TimeZone, SetBy = setter == null ? null : setter.Name, EndedBy = ender == null ? null : ender.Name }).ToListAsync(stop);
        return [.. rows.Select(r => Shown(r.Row, DateTimeZoneProviders.Tzdb[r.TimeZone], r.SetBy ?? "a colleague", r.EndedBy, caller))];
    }

    private static RecordHoldShown Shown(RecordHoldRow row, DateTimeZone zone, string setBy, string? endedBy, Caller caller) => new(
        row.Id, row.Version, row.FromDay, row.ToDay, row.Reason, setBy, row.SetAt.InZone(zone).LocalDateTime, row.EndedAt?.InZone(zone).LocalDateTime,
        row.EndedAt is null ? null : endedBy ?? "a colleague", row.EndedWord, row.EndedAt is null && RecordHoldRules.MayEnd(caller, row.SetBy));
}
