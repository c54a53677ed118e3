using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Sessions;

/// <summary>Reads one visit with all that was recorded about it.</summary>
public sealed class ReadVisit(Portal portal, TimeProvider clock)
{
    /// <summary>Null where the scope reaches no such visit.</summary>
    public Task<VisitPage?> RunAsync(Scope scope, Caller caller, Guid visit, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, caller, visit, stop), stop);

    /// <summary>The visit of a session.</summary>
    public Task<VisitPage?> OfSessionAsync(Scope scope, Caller caller, Guid session, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var visit = await db.Sessions.Where(s => s.AgencyId == caller.AgencyId && s.Id == session).Select(s => (Guid?)s.VisitId).SingleOrDefaultAsync(stop);
        return visit is { } id ? await FindAsync(db, caller, id, stop) : null;
    }, stop);

    private async Task<VisitPage?> FindAsync(PortalDb db, Caller caller, Guid id, CancellationToken stop)
    {
        var visit = await db.Visits.SingleOrDefaultAsync(v => v.AgencyId == caller.AgencyId && v.Id == id, stop);
        if (visit is null)
            return null;
        var service = await ServiceAsync(db, visit, stop);
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var sessions = await db.Sessions.Where(s => s.AgencyId == caller.AgencyId && s.VisitId == id).OrderByDescending(s => s.Id).ToListAsync(stop);
        var practised = visit.State == VisitState.Planned ? await PractisedAsync(db, visit, stop) : null;
        var routines = await RoutinesAsync(db, visit, [.. sessions.SelectMany(s => s.Routines), .. practised?.Routines ?? []], stop);
        var together = await db.Visits.Where(v => v.AgencyId == caller.AgencyId && v.LearnerId == visit.LearnerId && v.OnDay == visit.OnDay
            && v.TogetherNo == visit.TogetherNo && v.Live && v.State == VisitState.Logged).Select(v => v.ProviderId).ToListAsync(stop);
        var today = AgencyClock.Today(clock, visit.Zone);
        return new(
            visit.Id, visit.Version, service, Name(names, visit.ProviderId), visit.OnDay, visit.State, LoggedVisit.Planned(visit), visit.CalledOff,
            visit.PaysOn, visit.PartnerId, visit.ServiceId is not null && RecordRules.MayRecord(caller, visit.LearnerId, visit.ProviderId) && (visit.Live || sessions.Count > 0),
            caller.Manages(visit.LearnerId), await MarkNewAsync(db, visit, sessions.Select(s => OnRecord(s, visit, caller, names, together, today, routines)), stop),
            [.. (await TeamMember.ReadAsync(db, visit.AgencyId, [visit.LearnerId], today, stop)).Select(t => new Colleague(t.PersonId, t.Name))],
            await GroupAsync(db, visit, stop), routines)
        {
            Practised = practised,
            MustReadFirst = (await ReadFirst.UnreadAsync(db, caller, stop)).Contains(visit.LearnerId),
            RecordHold = (await ReadRecordHolds.AllAsync(db, caller, visit.LearnerId, ended: false, stop)).FirstOrDefault(h => h.Keeps(visit.OnDay)),
            InClosedCount = await db.LearnerPeriods.AnyAsync(l => l.AgencyId == visit.AgencyId && l.LearnerId == visit.LearnerId
                && l.ClosedAt != null && l.FirstDay <= visit.OnDay && l.LastDay >= visit.OnDay, stop),
            AwardId = visit.AwardId,
            Awards = [.. (await LearnerAwards.ChoicesAsync(db, visit.AgencyId, [visit.LearnerId], stop))
                .Where(a => a.ServiceId is { } own ? own == visit.ServiceId : a.Discipline == service.Discipline)],
            Holds = visit is { Live: true, State: VisitState.Planned }
                ? [.. (await HoldFacts.AtVisitsAsync(db, caller.AgencyId, [(visit.Id, visit.LearnerId)], stop))[visit.Id]] : [],
        };
    }

    private static async Task<IReadOnlyList<SessionOnRecord>> MarkNewAsync(PortalDb db, VisitRow visit, IEnumerable<SessionOnRecord> sessions, CancellationToken stop)
    {
        var standIns = await NewPeople.Of(db, visit.AgencyId).Where(n => n.LearnerId == visit.LearnerId).ToListAsync(stop);
        return [.. sessions.Select(s => s with { IsNewPerson = standIns.Exists(n => n.PersonId == s.Provider.Id && AddTeamMember.Dates(n).Holds(s.OnDay)) })];
    }

    private static async Task<PractisedAtVisit?> PractisedAsync(PortalDb db, VisitRow visit, CancellationToken stop)
    {
        var rows = await db.Practices.Where(p => p.AgencyId == visit.AgencyId && p.VisitId == visit.Id && p.Live && p.ObservesCode == null && p.OnDay == visit.OnDay)
            .Select(p => new { p.RoutineId, p.StartedAt, p.EndedAt, p.Record }).ToListAsync(stop);
        if (rows.Count == 0)
            return null;
        var zone = DateTimeZoneProviders.Tzdb[visit.Zone];
        LocalTime At(Instant instant) => instant.InZone(zone).TimeOfDay;
        return new(At(rows.Min(r => r.StartedAt)), At(rows.Max(r => r.EndedAt)), [.. rows.Select(r => r.RoutineId).Distinct()], [.. rows
            .SelectMany(r => PracticeJson.Read(r.Record).Filled).GroupBy(f => f.Kind).OrderBy(g => g.Key).Select(g => new Filled(g.Key, g.Sum(f => f.Minutes)))]);
    }

    private static async Task<VisitService> ServiceAsync(PortalDb db, VisitRow visit, CancellationToken stop) => await (
        from l in db.Learners
        from s in db.Services.Where(s => s.AgencyId == l.AgencyId && s.LearnerId == l.Id && s.Id == visit.ServiceId).DefaultIfEmpty()
        where l.AgencyId == visit.AgencyId && l.Id == visit.LearnerId
        select s == null
            ? new VisitService(null, l.Id, l.Name, visit.Kind, null, visit.Place, visit.Format, CoTreatment.None)
            : new VisitService(s.Id, l.Id, l.Name, visit.Kind, s.Discipline, s.Place, s.Format, s.CoTreatment)).SingleAsync(stop);

    private static Task<List<VisitRoutine>> RoutinesAsync(PortalDb db, VisitRow visit, int[] practised, CancellationToken stop) =>
        db.Routines.Where(r => r.AgencyId == visit.AgencyId && r.LearnerId == visit.LearnerId && (practised.Contains(r.Id)
                || ((r.Live || r.EndedOn > visit.OnDay) && db.VisitRoutines.Any(p => p.AgencyId == r.AgencyId && p.LearnerId == r.LearnerId && p.VisitId == visit.Id && p.RoutineId == r.Id))))
            .OrderBy(r => r.Name).Select(r => new VisitRoutine(r.Id, r.Name)).ToListAsync(stop);

    private static Task<List<GroupMate>> GroupAsync(PortalDb db, VisitRow visit, CancellationToken stop) => (
        from v in db.Visits
        from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.Id == v.ServiceId)
        join l in db.Learners on new { v.AgencyId, Id = v.LearnerId } equals new { l.AgencyId, l.Id }
        where v.AgencyId == visit.AgencyId && v.OnDay == visit.OnDay && v.ProviderId == visit.ProviderId && v.GroupNo == visit.GroupNo
            && v.Id != visit.Id && v.Live && v.State == VisitState.Planned
        orderby l.Name
        select new GroupMate(v.Id, l.Name, s.Discipline)).ToListAsync(stop);

    private static SessionOnRecord OnRecord(
        SessionRow s, VisitRow visit, Caller caller, Dictionary<int, string> names, List<int> together, LocalDate today,
        List<VisitRoutine> routines)
    {
        var recorded = s.RecordedAt.InZone(DateTimeZoneProviders.Tzdb[visit.Zone]).LocalDateTime;
        return new(
            s.Id, s.Live, s.Outcome, s.OnDay, s.StartTime, s.EndTime, s.Observed, s.NotCounted, s.Credited, s.Reason, s.PaysOn, s.Place, s.Format,
            Name(names, s.ProviderId), s.PartnerId is { } partner ? Name(names, partner) : null, together.Contains(s.PartnerId ?? 0), s.SharedMinutes,
            s.Practised, s.Present, s.Note, s.Replaces, s.CorrectionReason, s.TakenBackReason, Name(names, s.RecordedBy).Name, recorded,
            s.RecordedBy == caller.PersonId && recorded.Date == today, s.DeclinedReason, [.. routines.Where(r => s.Routines.Contains(r.Id))], s.Filled)
        {
            Withheld = s.Withheld,
            Countersigning = s.SupervisorId is not { } supervisor ? null : new(
                supervisor, Name(names, supervisor).Name, s.CountersignedBy is { } by ? Name(names, by) : null,
                s.CountersignedAt?.InZone(DateTimeZoneProviders.Tzdb[visit.Zone]).LocalDateTime, s.SentBackWhy),
        };
    }

    private static Colleague Name(Dictionary<int, string> names, int person) => new(person, names.GetValueOrDefault(person, "somebody"));
}
