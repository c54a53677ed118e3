using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Sessions;

/// <summary>A visit of today that is still to be, locked for one of the acts that a tap on Today does.</summary>
internal static class TodaysVisit
{
    public static async Task<Outcome<VisitRow>> LockAsync(PortalDb db, Caller caller, Guid id, int version, CancellationToken stop)
    {
        var visit = (await LoggedVisit.LockAsync(db, caller.AgencyId, [id], stop)).SingleOrDefault();
        if (visit is not { Live: true, ServiceId: not null } || !RecordRules.MayRecord(caller, visit.LearnerId, visit.ProviderId))
            return Outcome<VisitRow>.Refused(Problem.NotFound);
        if (visit.State == VisitState.Logged)
            return Outcome<VisitRow>.Refused(Refusals.LoggedMeanwhile);
        if (visit.Version != version || visit.State != VisitState.Planned)
            return Outcome<VisitRow>.Refused(Refusals.ChangedMeanwhile);
        return visit.OnDay == caller.Today
            ? Outcome<VisitRow>.Of(visit)
            : Outcome<VisitRow>.Refused("", "This is for visits of today. Open the visit to change or cancel it.");
    }
}
