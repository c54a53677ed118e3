using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Sessions;

/// <summary>Puts another session in the place of one on record, with a reason. The old one stays and is shown.</summary>
public sealed class CorrectSession(Portal portal, TimeProvider clock)
{
    public sealed record Input : TypedSession
    {
        /// <summary>The session that the form showed.</summary>
        public Guid Session { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }

        /// <summary>Who gave it; null: as before. Only a case manager may change it.</summary>
        public int? ProviderId { get; init; }
    }

    /// <summary>Refused with field "Version" where somebody corrected it first, with <see cref="Problem.NotFound"/> where it is none of the caller's.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(CorrectSession), input), db => CorrectAsync(db, caller, input, stop), stop);

    /// <summary>The same inside an open transaction: also under a restatement.</summary>
    internal async Task<Outcome<Saved>> CorrectAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await StandingSession.LockAsync(db, caller, input.Session, stop) is not var (session, visit))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var provider = input.ProviderId ?? session.ProviderId;
        if (!RecordRules.MayRecord(caller, session.LearnerId, provider))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (!session.Live)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        var facts = await SessionFacts.ReadAsync(db, caller.AgencyId, [session.LearnerId], clock, stop);
        var before = TimesBefore.Of(session);
        (visit.ProviderId, visit.AwardId) = (provider, input.AwardId);
        var check = Recording.Check(input, facts, facts.Service(session.ServiceId)!, visit, before);
        Problem[] problems = [.. check.Problems, .. Problems(input, facts, session, visit)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        return await ReplaceAsync(db, input, session, visit, check.Value!, stop);
    }

    private static IEnumerable<Problem> Problems(Input input, SessionFacts facts, SessionRow session, VisitRow visit)
    {
        if (string.IsNullOrWhiteSpace(input.Why))
            yield return new(nameof(input.Why), "Say why it is corrected.");
        if (visit.PlannedStart is not null && input.OnDay is { } day && day != session.OnDay)
            yield return new(nameof(input.OnDay), "This visit was scheduled for its day. Take it back and log it on the other day.");
        if (visit.ProviderId != session.ProviderId && !facts.OnTeam(visit.LearnerId, visit.ProviderId, input.OnDay ?? session.OnDay))
            yield return new(nameof(input.ProviderId), "Choose somebody who is on the learner's team.");
    }

    private static async Task<Outcome<Saved>> ReplaceAsync(
        PortalDb db, Input input, SessionRow old, VisitRow visit, SessionVerdict verdict, CancellationToken stop)
    {
        var entry = verdict.Entry;
        await DayLock.TakeAsync(db, visit.AgencyId, entry.OnDay, [visit.ProviderId], [visit.LearnerId], stop);
        LoggedVisit.Take(visit, entry);
        await Recording.JoinPartnerAsync(db, visit, input, stop);
        // The old one gives way first: one live session a visit, whatever order the statements would take.
        old.Live = false;
        await db.SaveChangesAsync(stop);
        var session = LoggedVisit.Session(visit, input, verdict, input.Observed(TimesBefore.Of(old), entry));
        (session.Replaces, session.CorrectionReason) = (old.Id, input.Why!.Trim());
        await Recording.KeepRoutinesAsync(db, [session], input, stop);
        db.Add(session);
        return Outcome<Saved>.Of(new([session.Id], visit.Id, entry.OnDay, entry.Start, entry.End, verdict.Credited, verdict.Notices));
    }
}
