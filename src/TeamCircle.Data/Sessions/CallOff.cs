using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Sessions;

/// <summary>Calls a visit of today off by one tap: it is on record as not offered, with its reason.</summary>
public sealed class CallOff(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public Guid Visit { get; init; }
        public int Version { get; init; }

        [EnumDataType(typeof(Reason))]
        public Reason? Reason { get; init; }
    }

    /// <param name="Service">The service whose minutes a make-up visit would give.</param>
    public sealed record CalledOff(Guid Visit, int Learner, int Service, LocalDate OnDay);

    public Task<Outcome<CalledOff>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(CallOff), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<CalledOff>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await TodaysVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
        if (found.Value is not { } visit)
            return Outcome<CalledOff>.Refused(found.Problems);
        var facts = await SessionFacts.ReadAsync(db, caller.AgencyId, [visit.LearnerId], clock, stop);
        var typed = new LogSession.Input { Visits = [visit.Id], Outcome = VisitOutcome.NotOffered, Reason = input.Reason };
        var check = Recording.Check(typed, facts, facts.Service(visit.ServiceId!.Value)!, visit, TimesBefore.Planned(visit));
        if (check.Value is not { } verdict)
            return Outcome<CalledOff>.Refused(check.Problems);
        LoggedVisit.Take(visit, verdict.Entry);
        (visit.Sequence, visit.ExpectedStart) = (visit.Sequence + 1, null);
        db.Add(LoggedVisit.Session(visit, typed, verdict, observed: false));
        return Outcome<CalledOff>.Of(new(visit.Id, visit.LearnerId, visit.ServiceId!.Value, visit.PaysOn ?? visit.OnDay));
    }
}
