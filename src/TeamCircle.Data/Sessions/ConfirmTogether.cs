using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Sessions;

/// <summary>
/// The named partner of a co-treatment confirms it with a session of their own, on their own service. Until then it counts
/// for the first logger only.
/// </summary>
public sealed class ConfirmTogether(Portal portal, TimeProvider clock)
{
    public sealed record Input : TypedSession
    {
        /// <summary>The session in which the caller was named as partner.</summary>
        public Guid Session { get; init; }

        /// <summary>The caller's own service.</summary>
        public int ServiceId { get; init; }
    }

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(ConfirmTogether), input), db => ConfirmAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> ConfirmAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var first = await db.Sessions.AsNoTracking().SingleOrDefaultAsync(
            s => s.AgencyId == caller.AgencyId && s.Id == input.Session && s.Live && s.PartnerId == caller.PersonId, stop);
        if (first is null || !caller.IsStaff || !caller.OnTeam(first.LearnerId))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var firstVisit = (await LoggedVisit.LockAsync(db, caller.AgencyId, [first.VisitId], stop)).Single();
        if (first.DeclinedReason is not null)
            return Outcome<Saved>.Refused("", "You said that this was not given together. Whoever logged it can correct it.");
        if (await IsConfirmedAsync(db, caller, firstVisit, stop))
            return Outcome<Saved>.Refused("", "You have already confirmed this co-treatment.");
        var facts = await SessionFacts.ReadAsync(db, caller.AgencyId, [first.LearnerId], clock, stop);
        if (facts.Service(input.ServiceId) is not { } service || service.Id == first.ServiceId)
            return Outcome<Saved>.Refused(nameof(input.ServiceId), "Choose your own service.");
        var own = input with { PartnerId = first.ProviderId, Outcome = VisitOutcome.Given };
        var visit = await PlannedVisitAsync(db, caller, service, first, stop) ?? Recording.NewVisit(facts, service, caller.PersonId, own);
        var before = TimesBefore.Of(first);
        var check = Recording.Check(own, facts, service, visit, before);
        if (check.Value is not { } verdict)
            return Outcome<Saved>.Refused([.. check.Problems.Select(p => Named(p))]);
        return await AddAsync(db, own, visit, firstVisit, verdict, own.Observed(before, verdict.Entry), stop);
    }

    private static async Task<Outcome<Saved>> AddAsync(
        PortalDb db, Input own, VisitRow visit, VisitRow first, SessionVerdict verdict, bool observed, CancellationToken stop)
    {
        var entry = verdict.Entry;
        await DayLock.TakeAsync(db, visit.AgencyId, entry.OnDay, [visit.ProviderId], [visit.LearnerId], stop);
        LoggedVisit.Take(visit, entry);
        visit.TogetherNo = first.TogetherNo;
        if (db.Entry(visit).State == EntityState.Detached)
            db.Add(visit);
        var session = LoggedVisit.Session(visit, own, verdict, observed);
        db.Add(session);
        string[] notices = [.. verdict.Notices.Where(n => n != SessionRules.WaitsForPartner)];
        return Outcome<Saved>.Of(new([session.Id], visit.Id, entry.OnDay, entry.Start, entry.End, verdict.Credited, notices));
    }

    internal static Task<bool> IsConfirmedAsync(PortalDb db, Caller caller, VisitRow first, CancellationToken stop) =>
        db.Visits.AnyAsync(v => v.AgencyId == caller.AgencyId && v.LearnerId == first.LearnerId && v.ProviderId == caller.PersonId
            && v.OnDay == first.OnDay && v.TogetherNo == first.TogetherNo && v.Live && v.State == VisitState.Logged, stop);

    /// <summary>The caller's own scheduled visit for that service, where it meets the first one; locked.</summary>
    private static async Task<VisitRow?> PlannedVisitAsync(PortalDb db, Caller caller, ServiceRow service, SessionRow first, CancellationToken stop)
    {
        var ids = await db.Visits
            .Where(v => v.AgencyId == caller.AgencyId && v.ServiceId == service.Id && v.ProviderId == caller.PersonId && v.OnDay == first.OnDay
                && v.Live && v.State == VisitState.Planned && v.StartTime < first.EndTime).Select(v => v.Id).ToListAsync(stop);
        return (await LoggedVisit.LockAsync(db, caller.AgencyId, ids, stop))
            .Find(v => v.State == VisitState.Planned && v.StartTime.PlusMinutes(v.Minutes) > first.StartTime);
    }

    // On this page the partner is given; what the rules say about it is about the service that was chosen.
    private static Problem Named(Problem problem) =>
        problem.Field == nameof(TypedSession.PartnerId) ? problem with { Field = nameof(Input.ServiceId) } : problem;
}
