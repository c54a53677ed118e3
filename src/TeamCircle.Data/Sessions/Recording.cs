using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Sessions;

/// <summary>The part that logging, correcting and confirming a visit have in common.</summary>
internal static class Recording
{
    /// <summary>What was typed, read and judged by the rules; all problems at once as far as the times can be read.</summary>
    public static Outcome<SessionVerdict> Check(TypedSession typed, SessionFacts facts, ServiceRow service, VisitRow visit, TimesBefore? before)
    {
        var read = typed.Read(before, service.Place, service.Format);
        var filled = PracticeRules.CheckFilled(typed.FilledHour);
        if (read.Value is not { } typedEntry)
            return Outcome<SessionVerdict>.Refused([.. read.Problems, .. Partner(typed, facts, visit, facts.Now.Date), .. filled]);
        var entry = typedEntry with { AwardId = visit.AwardId };
        var verdict = SessionRules.Check(entry, facts.Situation(service, LoggedVisit.Planned(visit), visit.ProviderId, entry.OnDay));
        Problem[] problems = [.. verdict.Problems, .. Partner(typed, facts, visit, entry.OnDay), .. filled];
        return problems.Length > 0 ? Outcome<SessionVerdict>.Refused(problems) : verdict;
    }

    public static VisitRow NewVisit(SessionFacts facts, ServiceRow service, int provider, TypedSession typed) => new()
    {
        AgencyId = service.AgencyId,
        Id = Guid.CreateVersion7(),
        LearnerId = service.LearnerId,
        ServiceId = service.Id,
        ProviderId = provider,
        Zone = facts.Zone,
        State = VisitState.Logged,
        LearnersTime = service.Kind == ServiceKind.Direct,
        PaysOn = typed.PaysOn,
        AwardId = typed.AwardId,
        Place = typed.Place ?? service.Place,
        Format = typed.Format ?? service.Format,
        PartnerId = typed.PartnerId,
    };

    /// <summary>
    /// Where the partner of a co-treatment has a visit of this learner at that time, both are one: the learner is not in two
    /// places.
    /// </summary>
    public static async Task JoinPartnerAsync(PortalDb db, VisitRow visit, TypedSession typed, CancellationToken stop)
    {
        if (typed.PartnerId is not { } partner)
            return;
        var end = visit.StartTime.PlusMinutes(visit.Minutes);
        var partners = await db.Visits.AsNoTracking()
            .Where(v => v.AgencyId == visit.AgencyId && v.LearnerId == visit.LearnerId && v.ProviderId == partner && v.OnDay == visit.OnDay
                && v.Live && v.TakesTime && v.StartTime < end).OrderBy(v => v.StartTime).ToListAsync(stop);
        if (partners.Find(v => v.StartTime.PlusMinutes(v.Minutes) > visit.StartTime) is { } other)
            visit.TogetherNo = other.TogetherNo;
    }

    /// <summary>Keeps which routines were practised: of those named, the ones that are the session's own learner's.</summary>
    public static async Task KeepRoutinesAsync(PortalDb db, IReadOnlyList<SessionRow> sessions, TypedSession typed, CancellationToken stop)
    {
        if (typed.Routines.Length == 0)
            return;
        var named = await db.Routines.Where(r => r.AgencyId == sessions[0].AgencyId && typed.Routines.Contains(r.Id)).Select(r => new { r.Id, r.LearnerId }).ToListAsync(stop);
        foreach (var session in sessions.Where(s => s.Outcome == VisitOutcome.Given))
            session.Routines = [.. named.Where(r => r.LearnerId == session.LearnerId).Select(r => r.Id).Order()];
    }

    /// <summary>What is to be known of a hold on a service that was given; minutes are logged all the same.</summary>
    public static async Task<IEnumerable<string>> HeldAsync(PortalDb db, IReadOnlyList<SessionRow> sessions, CancellationToken stop)
    {
        var given = sessions.Where(s => s.Outcome == VisitOutcome.Given).ToList();
        return (await HoldFacts.OnServicesAsync(db, sessions[0].AgencyId, [.. given.Select(s => s.LearnerId)], [.. given.Select(s => s.ServiceId)], stop))
            .Select(reason => $"There is a hold on this service: {reason} Minutes are logged all the same; nothing is to be practised.");
    }

    /// <summary>A number that no group and no co-treatment has yet.</summary>
    public static Task<long> NextNumberAsync(PortalDb db, CancellationToken stop) =>
        db.Database.SqlQuery<long>($"select nextval('portal.visit_numbers') as \"Value\"").SingleAsync(stop);

    private static IEnumerable<Problem> Partner(TypedSession typed, SessionFacts facts, VisitRow visit, LocalDate day)
    {
        if (typed.PartnerId is { } partner && (partner == visit.ProviderId || !facts.OnTeam(visit.LearnerId, partner, day)))
            yield return new(nameof(typed.PartnerId), "Choose somebody else who is on the learner's team.");
    }
}
