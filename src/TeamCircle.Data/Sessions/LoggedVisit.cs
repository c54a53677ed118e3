using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Sessions;

/// <summary>A visit's row as it follows what was recorded about it, and the row of what was recorded.</summary>
internal static class LoggedVisit
{
    /// <summary>The visits with these ids, locked in the order of their ids, so that two who record the same ones wait for each other.</summary>
    public static Task<List<VisitRow>> LockAsync(PortalDb db, int agency, IEnumerable<Guid> ids, CancellationToken stop)
    {
        Guid[] sought = [.. ids];
        var visits = sought is [var one] ? db.Locked<VisitRow>($"agency_id = {agency} and id = {one}") : db.Locked<VisitRow>($"agency_id = {agency} and id = any ({sought}) order by id");
        return visits.ToListAsync(stop);
    }

    /// <summary>What was planned: null where nobody had scheduled it.</summary>
    public static PlannedTimes? Planned(VisitRow visit) => visit.State == VisitState.Logged
        ? visit is { PlannedStart: { } start, PlannedMinutes: { } minutes } ? new(start, minutes) : null
        : new(visit.StartTime, visit.Minutes);

    /// <summary>Gives the row the actual times, so that it keeps both people from being elsewhere at once; the plan is kept beside them.</summary>
    public static void Take(VisitRow visit, SessionEntry entry)
    {
        var planned = Planned(visit);
        (visit.PlannedStart, visit.PlannedMinutes) = (planned?.Start, planned?.Minutes);
        visit.State = VisitState.Logged;
        visit.TakesTime = entry.Outcome != VisitOutcome.NotOffered;
        if (!visit.TakesTime && planned is { } plan)
            visit.TakePlace(entry.OnDay, plan.Start, plan.Minutes);
        else
            visit.TakePlace(entry.OnDay, entry.Start, entry.Minutes);
    }

    /// <summary>Back to what was planned; one that nobody had scheduled is no visit any more.</summary>
    public static void Release(VisitRow visit)
    {
        if (Planned(visit) is not { } plan)
        {
            visit.Live = false;
            return;
        }
        visit.TakePlace(visit.OnDay, plan.Start, plan.Minutes);
        (visit.PlannedStart, visit.PlannedMinutes, visit.TakesTime) = (null, null, true);
        visit.State = visit.CalledOff is null ? VisitState.Planned : VisitState.CalledOff;
    }

    public static SessionRow Session(VisitRow visit, TypedSession typed, SessionVerdict verdict, bool observed) => new()
    {
        AgencyId = visit.AgencyId,
        Id = Guid.CreateVersion7(),
        LearnerId = visit.LearnerId,
        ServiceId = visit.ServiceId!.Value,
        VisitId = visit.Id,
        ProviderId = visit.ProviderId,
        OnDay = verdict.Entry.OnDay,
        PaysOn = verdict.Entry.PaysOn,
        AwardId = verdict.Entry.AwardId,
        Outcome = verdict.Entry.Outcome,
        StartTime = verdict.Entry.Start,
        EndTime = verdict.Entry.End,
        NotCounted = verdict.Entry.NotCounted,
        Credited = verdict.Credited,
        Withheld = verdict.Withheld,
        SupervisorId = verdict.Supervisor,
        Observed = observed,
        Reason = verdict.Entry.Reason,
        Place = verdict.Entry.Place,
        Format = verdict.Entry.Format,
        PartnerId = typed.PartnerId,
        SharedMinutes = Shared(typed, verdict.Entry),
        Practised = Text(typed.Practised),
        Present = Text(typed.Present),
        Note = Text(typed.Note),
        Filled = verdict.Entry.Outcome == VisitOutcome.Given ? typed.FilledHour : [],
        Origin = SessionOrigin.Page,
    };

    /// <summary>What was said, as far as minutes follow from it.</summary>
    public static SessionEntry Entry(SessionRow session) => new()
    {
        Outcome = session.Outcome,
        OnDay = session.OnDay,
        Start = session.StartTime,
        End = session.EndTime,
        NotCounted = session.NotCounted,
        Reason = session.Reason,
        PaysOn = session.PaysOn,
        AwardId = session.AwardId,
        Place = session.Place,
        Format = session.Format,
        WithPartner = session.PartnerId is not null,
        SharedMinutes = session.SharedMinutes,
        Led = session.PartnerId is null || session.SharedMinutes != 0,
    };

    /// <summary>A co-treatment that somebody else led states 0 minutes for this service.</summary>
    private static int? Shared(TypedSession typed, SessionEntry entry) =>
        typed.PartnerId is not null && !entry.Led ? 0 : entry.SharedMinutes;

    private static string? Text(string? typed) => string.IsNullOrWhiteSpace(typed) ? null : typed.Trim();
}
