using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Sessions;

/// <summary>An assistant's entry that waits for a countersignature, locked by its visit: signing and correcting come one after the other.</summary>
internal static class AssistantsEntry
{
    /// <summary>The entry; or not found where there is none or it is not for the caller to sign, and refused where it does not wait any more.</summary>
    public static async Task<Outcome<SessionRow>> LockAsync(PortalDb db, Caller caller, Guid id, CancellationToken stop)
    {
        var visit = await db.Sessions.Where(s => s.AgencyId == caller.AgencyId && s.Id == id).Select(s => (Guid?)s.VisitId).SingleOrDefaultAsync(stop);
        if (visit is not { } known || await LoggedVisit.LockAsync(db, caller.AgencyId, [known], stop) is not [_])
            return Outcome<SessionRow>.Refused(Problem.NotFound);
        var session = await db.Sessions.SingleAsync(s => s.AgencyId == caller.AgencyId && s.Id == id, stop);
        if (session.SupervisorId is not { } supervisor
            || !CountersignRules.MaySign(caller, session.LearnerId, session.ProviderId, supervisor, await IsHereAsync(db, caller, session.LearnerId, supervisor, stop)))
            return Outcome<SessionRow>.Refused(Problem.NotFound);
        return session is { Live: true, CountersignedAt: null } ? Outcome<SessionRow>.Of(session) : Outcome<SessionRow>.Refused(Refusals.ChangedMeanwhile);
    }

    /// <summary>Whether a person works with the learner today.</summary>
    public static Task<bool> IsHereAsync(PortalDb db, Caller caller, int learner, int person, CancellationToken stop) =>
        VisitSpec.OnTeamAsync(db, caller, learner, person, stop);
}
