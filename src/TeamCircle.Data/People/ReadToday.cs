using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.People;

/// <summary>Reads what day it is for an agency, in its own zone.</summary>
public sealed class ReadToday(Portal portal, TimeProvider clock)
{
    public async Task<LocalDate> RunAsync(Scope scope, CancellationToken stop = default) => AgencyClock.Today(clock, await portal.ReadAsync(
        scope, db => db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.TimeZone).SingleAsync(stop), stop));
}
