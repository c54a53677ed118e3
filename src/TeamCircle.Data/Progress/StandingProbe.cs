using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Progress;

/// <summary>A probe on record, locked: two who change it at once come one after the other.</summary>
internal static class StandingProbe
{
    /// <summary>Null where there is none, or the caller may not record for the person who took it.</summary>
    public static async Task<ProbeRow?> LockAsync(PortalDb db, Caller caller, Guid id, CancellationToken stop)
    {
        var found = await db.Locked<ProbeRow>($"agency_id = {caller.AgencyId} and id = {id}").ToListAsync(stop);
        return found is [var probe] && RecordRules.MayRecord(caller, probe.LearnerId, probe.ProviderId) ? probe : null;
    }
}
