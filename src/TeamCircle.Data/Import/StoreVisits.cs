using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Import;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Import;

/// <summary>Stores visits and what became of them. A planned one becomes given; one that was logged is corrected by a new row.</summary>
internal sealed class StoreVisits(ImportDesk desk)
{
    private sealed record Change(VisitLine Line, VisitRow? Visit, SessionRow? Session, int Index);

    private readonly List<VisitRow> _newVisits = [];
    private readonly List<SessionRow> _newSessions = [];
    private Dictionary<int, ServiceRow> _services = [];
    private Queue<long> _numbers = new();

    public async Task RunAsync(IReadOnlyList<VisitLine> lines, IReadOnlyList<StoredVisit> stored, CancellationToken stop)
    {
        int[] services = [.. lines.Select(l => desk.Services[l.Service]).Distinct()];
        _services = await desk.Db.Services.Where(s => s.AgencyId == desk.Agency && services.Contains(s.Id)).AsNoTracking().ToDictionaryAsync(s => s.Id, stop);
        _numbers = await FreshNumbersAsync(3 * lines.Count, stop);
        var shared = new SharedTimes(lines, stored, _numbers.Dequeue);
        var changes = await ChangesAsync(lines, shared, stop);
        await RenumberAsync(shared, stop);
        await ParkAsync(changes, shared, stop);
        foreach (var change in changes)
            Apply(change, shared.Lines.GetValueOrDefault(change.Index));
        await desk.AddAsync(_newVisits, stop);
        await desk.AddAsync(_newSessions, stop);
    }

    /// <summary>Numbers for visits, of their own and shared; those not used are lost, as a sequence's may be.</summary>
    private async Task<Queue<long>> FreshNumbersAsync(int most, CancellationToken stop) => new(await desk.Db.Database
        .SqlQuery<long>($"select nextval('portal.visit_numbers') as \"Value\" from generate_series(1, {most})").ToListAsync(stop));

    /// <summary>The lines that differ from what is stored; the others are counted as known.</summary>
    private async Task<List<Change>> ChangesAsync(IReadOnlyList<VisitLine> lines, SharedTimes shared, CancellationToken stop)
    {
        Guid[] ids = [.. lines.Where(l => l.Stored is not null).Select(l => l.Stored!.Id)];
        var visits = await desk.Db.Visits.Where(v => v.AgencyId == desk.Agency && ids.Contains(v.Id)).ToDictionaryAsync(v => v.Id, stop);
        var sessions = await desk.Db.Sessions.Where(s => s.AgencyId == desk.Agency && s.Live && ids.Contains(s.VisitId)).ToDictionaryAsync(s => s.VisitId, stop);
        var changes = new List<Change>();
        for (var i = 0; i < lines.Count; i++)
        {
            var line = lines[i];
            var visit = line.Stored is null ? null : visits[line.Stored.Id];
            var session = visit is null ? null : sessions.GetValueOrDefault(visit.Id);
            if (visit is not null && IsKnown(line, visit, session, shared.Lines.GetValueOrDefault(i)))
                desk.Count(line.File, line.Line, visit);
            else if (!desk.IsClosed(line.File, line.Line, "date", desk.Learners[line.Learner], (line.Date, line.PaysOn), (visit?.OnDay, visit?.PaysOn)))
                changes.Add(new(line, visit, session, i));
        }
        return changes;
    }

    private bool IsKnown(VisitLine line, VisitRow visit, SessionRow? session, (long? Group, long? Together) numbers)
    {
        // What was logged or called off stays so: a file that was written before it does not plan it anew.
        if (line.Outcome == VisitOutcome.Planned && visit.State != VisitState.Planned)
            return true;
        var wanted = new VisitRow { Zone = visit.Zone, State = visit.State };
        Describe(wanted, line, visit);
        var same = (wanted.OnDay, wanted.StartTime, wanted.Minutes, wanted.ServiceId, wanted.ProviderId, wanted.State)
                == (visit.OnDay, visit.StartTime, visit.Minutes, visit.ServiceId, visit.ProviderId, visit.State)
            && (wanted.PlannedStart, wanted.PlannedMinutes, wanted.PaysOn, wanted.Place, wanted.Format, wanted.PartnerId, wanted.Ref)
                == (visit.PlannedStart, visit.PlannedMinutes, visit.PaysOn, visit.Place, visit.Format, visit.PartnerId, visit.Ref)
            && (numbers.Group ?? visit.GroupNo, numbers.Together ?? visit.TogetherNo) == (visit.GroupNo, visit.TogetherNo);
        return same && (line.Outcome == VisitOutcome.Planned || (session is not null && Same(session, Session(line, visit, session))));
    }

    private static bool Same(SessionRow old, SessionRow row) =>
        (old.OnDay, old.StartTime, old.EndTime, old.ServiceId, old.ProviderId, old.Outcome) == (row.OnDay, row.StartTime, row.EndTime, row.ServiceId, row.ProviderId, row.Outcome)
        && (old.PaysOn, old.NotCounted, old.Reason, old.Place, old.Format, old.PartnerId, old.Note) == (row.PaysOn, row.NotCounted, row.Reason, row.Place, row.Format, row.PartnerId, row.Note);

    /// <summary>Stored visits that now share their time with a brought one get its number.</summary>
    private async Task RenumberAsync(SharedTimes shared, CancellationToken stop)
    {
        Guid[] ids = [.. shared.Others.Keys];
        if (ids.Length == 0)
            return;
        foreach (var visit in await desk.Db.Visits.Where(v => v.AgencyId == desk.Agency && ids.Contains(v.Id)).ToListAsync(stop))
            (visit.GroupNo, visit.TogetherNo) = (shared.Others[visit.Id].Group ?? visit.GroupNo, shared.Others[visit.Id].Together ?? visit.TogetherNo);
        await desk.SaveAsync(stop);
    }

    /// <summary>
    /// Takes visits that move out of everybody's way first, since the database checks row by row: two that change places
    /// would meet on the way. Sessions that are corrected give up their place too.
    /// </summary>
    private async Task ParkAsync(List<Change> changes, SharedTimes shared, CancellationToken stop)
    {
        foreach (var change in changes.Where(c => c.Visit is not null))
        {
            var (line, visit) = (change.Line, change.Visit!);
            var numbers = shared.Lines.GetValueOrDefault(change.Index);
            if ((visit.OnDay, visit.StartTime, visit.Minutes, visit.ProviderId, visit.TakesTime)
                    != (line.Date, line.Start, line.Minutes, desk.People[line.Provider], line.TakesTime)
                || (numbers.Group ?? visit.GroupNo, numbers.Together ?? visit.TogetherNo) != (visit.GroupNo, visit.TogetherNo))
                visit.Live = false;
            if (change.Session is not null && line.Outcome != VisitOutcome.Planned)
                change.Session.Live = false;
        }
        await desk.SaveAsync(stop);
    }

    private void Apply(Change change, (long? Group, long? Together) numbers)
    {
        var (line, old) = (change.Line, change.Visit);
        var visit = old ?? New();
        Describe(visit, line, visit);
        visit.Live = true;
        (visit.GroupNo, visit.TogetherNo) = (numbers.Group ?? visit.GroupNo, numbers.Together ?? visit.TogetherNo);
        if (line.Outcome == VisitOutcome.Planned)
        {
            desk.Count(line.File, line.Line, visit);
            return;
        }
        var session = Session(line, visit, change.Session);
        if (change.Session is { } corrected)
            (session.Replaces, session.CorrectionReason) = (corrected.Id, "brought again by a file");
        _newSessions.Add(session);
        desk.Count(line.File, line.Line, visit, session);
    }

    private VisitRow New()
    {
        var visit = new VisitRow { Id = Guid.CreateVersion7(), Zone = desk.Zone, GroupNo = _numbers.Dequeue(), TogetherNo = _numbers.Dequeue() };
        _newVisits.Add(visit);
        return visit;
    }

    /// <param name="known">What stands for cells that the row leaves empty.</param>
    private void Describe(VisitRow visit, VisitLine line, VisitRow known)
    {
        var service = _services[desk.Services[line.Service]];
        var isNew = known.ServiceId == 0;
        (visit.LearnerId, visit.ServiceId, visit.ProviderId) = (service.LearnerId, service.Id, desk.People[line.Provider]);
        visit.TakePlace(line.Date, line.Start, line.Minutes);
        (visit.Place, visit.Format) = (line.Place ?? (isNew ? service.Place : known.Place), line.Format ?? (isNew ? service.Format : known.Format));
        (visit.PaysOn, visit.PartnerId) = (line.PaysOn, Partner(line) ?? known.PartnerId);
        if (line.Ref is not null && !string.Equals(line.Ref, known.Ref, StringComparison.OrdinalIgnoreCase))
            visit.Ref = line.Ref;
        else
            visit.Ref = known.Ref;
        (visit.TakesTime, visit.LearnersTime) = (line.TakesTime, line.LearnersTime);
        if (line.Outcome == VisitOutcome.Planned)
            return;
        (visit.PlannedStart, visit.PlannedMinutes) = (line.PlannedStart, line.PlannedMinutes);
        (visit.State, visit.CalledOff) = (VisitState.Logged, null);
    }

    /// <param name="known">The session as it stands, for cells that the row leaves empty.</param>
    private SessionRow Session(VisitLine line, VisitRow visit, SessionRow? known) => new()
    {
        Id = Guid.CreateVersion7(),
        LearnerId = desk.Learners[line.Learner],
        ServiceId = desk.Services[line.Service],
        VisitId = visit.Id,
        ProviderId = desk.People[line.Provider],
        OnDay = line.Date,
        PaysOn = line.PaysOn,
        AwardId = visit.AwardId,
        Outcome = line.Outcome,
        StartTime = line.Start,
        EndTime = line.End,
        NotCounted = line.NotCounted,
        Credited = line.Outcome == VisitOutcome.Given ? line.Minutes - line.NotCounted : 0,
        Observed = line.TakesTime,
        Reason = line.Reason,
        Place = line.Place ?? visit.Place,
        Format = line.Format ?? visit.Format,
        PartnerId = Partner(line) ?? known?.PartnerId,
        SharedMinutes = known?.SharedMinutes,
        Practised = known?.Practised,
        Present = known?.Present,
        Note = line.Note ?? known?.Note,
        Origin = SessionOrigin.File,
    };

    private int? Partner(VisitLine line) => line.Partner is null ? null : desk.People[line.Partner];
}
