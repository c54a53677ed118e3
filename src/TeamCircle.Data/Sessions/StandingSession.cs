using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Sessions;

/// <summary>A session on record with its visit, locked: two who change it at once come one after the other.</summary>
internal static class StandingSession
{
    /// <summary>Null where there is none, or the caller may not record for the person who gave it.</summary>
    public static async Task<(SessionRow Session, VisitRow Visit)?> LockAsync(PortalDb db, Caller caller, Guid id, CancellationToken stop)
    {
        var visitId = await db.Sessions.Where(s => s.AgencyId == caller.AgencyId && s.Id == id).Select(s => (Guid?)s.VisitId).SingleOrDefaultAsync(stop);
        if (visitId is not { } known || await LoggedVisit.LockAsync(db, caller.AgencyId, [known], stop) is not [var visit])
            return null;
        var session = await db.Sessions.SingleAsync(s => s.AgencyId == caller.AgencyId && s.Id == id, stop);
        return RecordRules.MayRecord(caller, session.LearnerId, session.ProviderId) ? (session, visit) : null;
    }
}
