using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.People;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Progress;

/// <summary>The probes of a goal as they were recorded, with who took and who recorded them.</summary>
internal static class ProbesOnRecord
{
    /// <summary>The latest first; also those that were corrected or taken back. One statement.</summary>
    public static async Task<IReadOnlyList<ProbeOnRecord>> ReadAsync(PortalDb db, Caller caller, int goal, DateTimeZone zone, CancellationToken stop)
    {
        var standIns = NewPeople.Of(db, caller.AgencyId);
        var rows = await (
            from p in db.Probes
            join who in db.People on new { p.AgencyId, Id = p.ProviderId } equals new { who.AgencyId, who.Id }
            join writer in db.People on new { p.AgencyId, Id = p.RecordedBy } equals new { writer.AgencyId, writer.Id }
            where p.AgencyId == caller.AgencyId && p.GoalId == goal
            orderby p.OnDay descending, p.Id descending
            select new
            {
                Row = p,
                who.Name,
                By = writer.Name,
                IsNew = standIns.Any(n => n.LearnerId == p.LearnerId && n.PersonId == p.ProviderId && n.FromDay <= p.OnDay && n.ToDay >= p.OnDay),
            }).ToListAsync(stop);
        return [.. rows.Select(r => OnRecord(r.Row, r.Name, r.By, caller, zone) with { IsNewPerson = r.IsNew })];
    }

    private static ProbeOnRecord OnRecord(ProbeRow p, string provider, string by, Caller caller, DateTimeZone zone) => new(
        p.Id, p.Live, p.OnDay, p.Value, p.Opportunities, p.Kind, p.Stage, p.PaysOn, new(p.Conditions, p.State, p.Position, p.Side, p.Place),
        new(p.ProviderId, provider), p.Replaces, p.CorrectionReason, p.TakenBackReason, by, p.RecordedAt.InZone(zone).LocalDateTime,
        p.Live && RecordRules.MayRecord(caller, p.LearnerId, p.ProviderId), p.Point);
}
