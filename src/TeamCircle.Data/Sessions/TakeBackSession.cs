using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Sessions;

/// <summary>Takes a session back: the visit is as planned again, or gone where nobody had scheduled it. The session stays on record.</summary>
public sealed class TakeBackSession(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public Guid Session { get; init; }

        /// <summary>Not needed for what one recorded oneself today.</summary>
        [StringLength(1000)]
        public string? Why { get; init; }
    }

    public sealed record TakenBack(Guid Visit, bool IsPlannedAgain);

    public Task<Outcome<TakenBack>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(TakeBackSession), input), db => TakeBackAsync(db, caller, input, stop), stop);

    private async Task<Outcome<TakenBack>> TakeBackAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await StandingSession.LockAsync(db, caller, input.Session, stop) is not var (session, visit))
            return Outcome<TakenBack>.Refused(Problem.NotFound);
        if (!session.Live)
            return Outcome<TakenBack>.Refused(Refusals.ChangedMeanwhile);
        var recordedOn = session.RecordedAt.InZone(DateTimeZoneProviders.Tzdb[visit.Zone]).Date;
        var isOwnOfToday = session.RecordedBy == caller.PersonId && recordedOn == AgencyClock.Today(clock, visit.Zone);
        if (!isOwnOfToday && string.IsNullOrWhiteSpace(input.Why))
            return Outcome<TakenBack>.Refused(Refusals.NoReason(nameof(input.Why)));
        (session.Live, session.TakenBackReason) = (false, string.IsNullOrWhiteSpace(input.Why) ? "undone" : input.Why.Trim());
        LoggedVisit.Release(visit);
        return Outcome<TakenBack>.Of(new(visit.Id, visit.Live));
    }
}
