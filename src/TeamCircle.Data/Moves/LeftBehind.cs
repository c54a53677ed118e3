using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Reports;

namespace TeamCircle.Data.Moves;

/// <summary>Reads the facts from which the list of a last day is made: of the learners that the transaction reaches.</summary>
internal sealed class LeftBehind(PortalDb db, int agency, LastDayRow last, LocalDate today)
{
    private readonly int _person = last.PersonId;

    /// <summary>The list, as it stands now.</summary>
    public async Task<IReadOnlyList<HandOverItem>> ListAsync(CancellationToken stop)
    {
        var filed = await db.FiledItems.Where(f => f.AgencyId == agency && f.PersonId == _person).Select(f => new { f.ReportId, f.VisitId }).ToListAsync(stop);
        HandOverItem[] entries = [.. await ToConfirmAsync(stop), .. await ToCountersignAsync(stop)];
        return HandOverList.Of(new()
        {
            Visits = await VisitsAsync(stop),
            Theirs = [.. await NamedAsync(stop), .. await SeriesAsync(stop), .. await ThingsAsync(stop), .. await RelationsAsync(stop)],
            Waiting = [.. await ReportsAsync([.. filed.Select(f => f.ReportId)], stop), .. entries.Where(e => !filed.Exists(f => f.VisitId == e.Visit)), .. await SetAsideAsync(stop), .. await DevicesAsync(stop)],
        }, last.Day, today);
    }

    private Task<List<PlannedForThem>> VisitsAsync(CancellationToken stop) => db.Visits
        .Where(v => v.AgencyId == agency && v.ProviderId == _person && v.Live && v.State == VisitState.Planned)
        .Select(v => new PlannedForThem(v.Id, v.LearnerId, v.OnDay, v.Kind == VisitKind.Service)).ToListAsync(stop);

    private async Task<IEnumerable<TheirsUntil>> NamedAsync(CancellationToken stop)
    {
        var services = await db.Assignments.Where(a => a.AgencyId == agency && a.PersonId == _person && a.ToDay > last.Day)
            .Join(db.Services, a => new { a.AgencyId, a.LearnerId, Id = a.ServiceId }, s => new { s.AgencyId, s.LearnerId, s.Id }, (a, s) => new { a, s })
            .Where(x => x.s.ToDay > last.Day).Select(x => new TheirsUntil(HandOverKind.Service, x.a.LearnerId, x.a.ServiceId, x.a.ToDay)).ToListAsync(stop);
        var goals = await db.GoalOwners.Where(o => o.AgencyId == agency && o.PersonId == _person && o.ToDay > last.Day)
            .Join(db.Goals, o => new { o.AgencyId, o.LearnerId, Id = o.GoalId }, g => new { g.AgencyId, g.LearnerId, g.Id }, (o, g) => new { o, g })
            .Where(x => x.g.ToDay > last.Day).Select(x => new TheirsUntil(HandOverKind.Goal, x.o.LearnerId, x.o.GoalId, x.o.ToDay)).ToListAsync(stop);
        return services.Concat(goals);
    }

    // A series that has visits to come stands in the list by them too; one that has none yet would be topped up for somebody who is gone.
    private Task<List<TheirsUntil>> SeriesAsync(CancellationToken stop) => db.Series
        .Where(s => s.AgencyId == agency && s.ProviderId == _person && s.Live && (s.EndsOn == null || s.EndsOn > last.Day)
            && (s.ServiceId == null || db.Services.Any(l => l.AgencyId == s.AgencyId && l.Id == s.ServiceId && l.ToDay > last.Day)))
        .Select(s => new TheirsUntil(HandOverKind.Series, s.LearnerId, s.Id, s.EndsOn)).ToListAsync(stop);

    private Task<List<TheirsUntil>> ThingsAsync(CancellationToken stop) => db.Things.Where(t => t.AgencyId == agency && t.OwnerId == _person && t.EndedOn == null)
        .Select(t => new TheirsUntil(HandOverKind.Thing, t.LearnerId, t.Id, null)).ToListAsync(stop);

    private async Task<IEnumerable<TheirsUntil>> RelationsAsync(CancellationToken stop)
    {
        var managed = await db.Relations.Where(r => r.AgencyId == agency && r.PersonId == _person && r.Kind == Relation.CaseManager)
            .Select(r => new TheirsUntil(HandOverKind.CaseManagement, r.LearnerId, r.Id, r.ToDay)).ToListAsync(stop);
        var supervised = await db.Relations.Where(r => r.AgencyId == agency && r.SupervisorId == _person && r.Kind == Relation.Assistant)
            .Select(r => new TheirsUntil(HandOverKind.Supervision, r.LearnerId, r.Id, r.ToDay)).ToListAsync(stop);
        return managed.Concat(supervised);
    }

    private async Task<IEnumerable<HandOverItem>> ReportsAsync(List<int?> filed, CancellationToken stop)
    {
        // Whoever stood on a learner's team owes what they owned there, also once the relation has ended with the last day.
        var teams = await db.Relations.Where(r => r.AgencyId == agency && r.PersonId == _person && r.FromDay <= last.Day && (r.ToDay == null || r.ToDay >= last.Day)
            && (r.Kind == Relation.Team || r.Kind == Relation.CaseManager)).Select(r => new Standing(r.LearnerId, r.Kind)).ToListAsync(stop);
        var leaver = new Caller(agency, _person, "", new HashSet<Role> { Role.Provider }, teams, today);
        return (await Together.AloneAsync(db, all => ReadReports.WaitingAsync(db, all, leaver), stop)).Where(r => r.What != ReportWait.Review && !filed.Contains(r.Report))
            .Select(r => new HandOverItem(HandOverKind.Report, r.LearnerId, r.Report)).Distinct();
    }

    private async Task<IEnumerable<HandOverItem>> ToConfirmAsync(CancellationToken stop) => (await (
        from s in db.Sessions
        join v in db.Visits on new { s.AgencyId, s.LearnerId, Id = s.VisitId } equals new { v.AgencyId, v.LearnerId, v.Id }
        where s.AgencyId == agency && s.PartnerId == _person && s.Live && s.Outcome == VisitOutcome.Given && s.DeclinedReason == null
            && !db.Visits.Any(own => own.AgencyId == s.AgencyId && own.LearnerId == s.LearnerId && own.ProviderId == _person
                && own.OnDay == s.OnDay && own.TogetherNo == v.TogetherNo && own.Live && own.State == VisitState.Logged)
        select new { s.LearnerId, s.VisitId, s.OnDay, s.Id }).ToListAsync(stop)).Select(s => new HandOverItem(HandOverKind.ToConfirm, s.LearnerId, Visit: s.VisitId, On: s.OnDay, Session: s.Id));

    // What they sent back waits too: the assistant corrects it, and then it is to be signed after all.
    private async Task<IEnumerable<HandOverItem>> ToCountersignAsync(CancellationToken stop) => (await db.Sessions
        .Where(s => s.AgencyId == agency && s.SupervisorId == _person && s.Live && s.CountersignedAt == null).Select(s => new { s.LearnerId, s.VisitId, s.OnDay, s.Id }).ToListAsync(stop))
        .Select(s => new HandOverItem(HandOverKind.Countersign, s.LearnerId, Visit: s.VisitId, On: s.OnDay, Session: s.Id));

    private async Task<IEnumerable<HandOverItem>> SetAsideAsync(CancellationToken stop) => (await db.SetAsides
        .Where(s => s.AgencyId == agency && s.PersonId == _person && s.ClosedAt == null).Select(s => new { s.Id, s.LearnerId }).ToListAsync(stop))
        .Select(s => new HandOverItem(HandOverKind.SetAside, s.LearnerId, s.Id));

    private async Task<IEnumerable<HandOverItem>> DevicesAsync(CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
        return (await db.Devices.Where(d => d.AgencyId == agency && d.PersonId == _person && d.RevokedAt == null).Select(d => new { d.Id, d.LastContact }).ToListAsync(stop))
            .Select(d => new HandOverItem(HandOverKind.Device, null, Visit: d.Id, On: d.LastContact?.InZone(zone).Date));
    }
}
