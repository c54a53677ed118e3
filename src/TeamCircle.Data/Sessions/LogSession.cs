using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Sessions;

/// <summary>
/// Logs what became of a visit that was scheduled, or of one that nobody had scheduled. Several visits or services are one
/// group session: the same times for each learner, one row each.
/// </summary>
public sealed class LogSession(Portal portal, TimeProvider clock)
{
    public sealed record Input : TypedSession
    {
        /// <summary>Scheduled visits; empty for one that nobody had scheduled.</summary>
        public Guid[] Visits { get; init; } = [];

        /// <summary>The version of the first visit that the form showed; null where none was shown.</summary>
        public int? Version { get; init; }

        /// <summary>For a visit that nobody had scheduled.</summary>
        public int[] Services { get; init; } = [];

        /// <summary>Who gave it; null: the caller. Only a case manager may name somebody else.</summary>
        public int? ProviderId { get; init; }
    }

    private sealed record Target(VisitRow Visit, ServiceRow Service, TimesBefore? Before);

    /// <summary>Refused with <see cref="Problem.NotFound"/> where a visit or service is none of the caller's.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(LogSession), input),
            db => InAsync(db, caller, input, stop), stop);

    internal Task<Outcome<Saved>> InAsync(PortalDb db, Caller caller, Input input, CancellationToken stop) =>
        input.Visits.Length > 0 ? LogScheduledAsync(db, caller, input, stop) : LogNewAsync(db, caller, input, stop);

    private async Task<Outcome<Saved>> LogScheduledAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var visits = await LoggedVisit.LockAsync(db, caller.AgencyId, input.Visits.Distinct(), stop);
        if (visits.Count != input.Visits.Distinct().Count() || !visits.All(v => v.Live && RecordRules.MayRecord(caller, v.LearnerId, v.ProviderId)))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (visits.Any(v => v.ServiceId is null))
            return Outcome<Saved>.Refused("", "This visit is for no service, so there are no minutes to log.");
        if (visits.Any(v => v.State == VisitState.Logged))
            return Outcome<Saved>.Refused(Refusals.LoggedMeanwhile);
        if (input.Version is { } seen && visits.Single(v => v.Id == input.Visits[0]).Version != seen)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        var facts = await SessionFacts.ReadAsync(db, caller.AgencyId, Learners(visits.Select(v => v.LearnerId)), clock, stop);
        var inOrder = visits.OrderBy(v => Array.IndexOf(input.Visits, v.Id));
        Target[] targets = [.. inOrder.Select(v => new Target(v, facts.Service(v.ServiceId!.Value)!, TimesBefore.Planned(v)))];
        return await LogAsync(db, input, facts, targets, stop);
    }

    private async Task<Outcome<Saved>> LogNewAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (input.Services.Length == 0)
            return Outcome<Saved>.Refused(nameof(input.Services), "Choose the service that the visit was for.");
        var learnerOf = await db.Services.Where(s => s.AgencyId == caller.AgencyId && input.Services.Contains(s.Id) && s.Live)
            .ToDictionaryAsync(s => s.Id, s => s.LearnerId, stop);
        var provider = input.ProviderId ?? caller.PersonId;
        if (learnerOf.Count != input.Services.Distinct().Count() || !learnerOf.Values.All(l => RecordRules.MayRecord(caller, l, provider)))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var facts = await SessionFacts.ReadAsync(db, caller.AgencyId, Learners(learnerOf.Values), clock, stop);
        if (learnerOf.Values.Distinct().Count() < learnerOf.Count)
            return Outcome<Saved>.Refused(nameof(input.Services), "A group session has one service for each learner.");
        if (!learnerOf.Values.All(l => facts.OnTeam(l, provider, input.OnDay ?? facts.Now.Date)))
            return Outcome<Saved>.Refused(nameof(input.ProviderId), "Choose somebody who is on the learner's team.");
        Target[] targets = [.. input.Services.Distinct().Select(id => New(facts, facts.Service(id)!, provider, input))];
        return await LogAsync(db, input, facts, targets, stop);
    }

    private static async Task<Outcome<Saved>> LogAsync(PortalDb db, Input input, SessionFacts facts, Target[] targets, CancellationToken stop)
    {
        var checks = targets.Select(t => Recording.Check(input, facts, t.Service, t.Visit, t.Before)).ToArray();
        if (checks.SelectMany(c => c.Problems).Distinct().ToArray() is { Length: > 0 } problems)
            return Outcome<Saved>.Refused(problems);
        var verdicts = checks.Select(c => c.Value!).ToArray();
        var entry = verdicts[0].Entry;
        await DayLock.TakeAsync(db, targets[0].Visit.AgencyId, entry.OnDay,
            targets.Select(t => t.Visit.ProviderId), targets.Select(t => t.Visit.LearnerId), stop);
        for (var i = 0; i < targets.Length; i++)
        {
            LoggedVisit.Take(targets[i].Visit, verdicts[i].Entry);
            if (db.Entry(targets[i].Visit).State == EntityState.Detached)
                await AddAsync(db, targets[i].Visit, targets[0].Visit, stop);
            await Recording.JoinPartnerAsync(db, targets[i].Visit, input, stop);
        }
        SessionRow[] sessions = [.. targets.Select((t, i) => LoggedVisit.Session(t.Visit, input, verdicts[i], input.Observed(t.Before, entry)))];
        await Recording.KeepRoutinesAsync(db, sessions, input, stop);
        db.AddRange(sessions);
        string[] held = [.. await Recording.HeldAsync(db, sessions, stop)];
        return Outcome<Saved>.Of(new([.. sessions.Select(s => s.Id)], targets[0].Visit.Id, entry.OnDay, entry.Start, entry.End,
            verdicts[0].Credited, [.. verdicts.SelectMany(v => v.Notices).Distinct(), .. held]));
    }

    private static Target New(SessionFacts facts, ServiceRow service, int provider, Input input) => new(
        Recording.NewVisit(facts, service, provider, input), service, null);

    /// <summary>Adds a new visit; what one person did at the same time with several learners is one group.</summary>
    private static async Task AddAsync(PortalDb db, VisitRow visit, VisitRow first, CancellationToken stop)
    {
        if (visit != first)
            visit.GroupNo = first.GroupNo;
        else if (visit.Format == SessionFormat.Group || !visit.LearnersTime)
            visit.GroupNo = await GroupAtThatTimeAsync(db, visit, stop) ?? await Recording.NextNumberAsync(db, stop);
        db.Add(visit);
    }

    private static Task<long?> GroupAtThatTimeAsync(PortalDb db, VisitRow visit, CancellationToken stop) =>
        db.Visits.Where(v => v.AgencyId == visit.AgencyId && v.ProviderId == visit.ProviderId && v.OnDay == visit.OnDay && v.Live && v.TakesTime
                && v.StartTime == visit.StartTime && v.Minutes == visit.Minutes && v.LearnerId != visit.LearnerId
                && v.Format == visit.Format && v.LearnersTime == visit.LearnersTime)
            .Select(v => (long?)v.GroupNo).FirstOrDefaultAsync(stop);

    private static int[] Learners(IEnumerable<int> learners) => [.. learners.Distinct().Order()];
}
