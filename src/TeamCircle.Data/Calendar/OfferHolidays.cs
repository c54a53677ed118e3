using Microsoft.EntityFrameworkCore;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Calendar;

/// <summary>Reads which federal holidays fall on ordinary days of the agency's terms and are not in its calendar.</summary>
public sealed class OfferHolidays(Portal portal)
{
    public Task<IReadOnlyList<FederalHoliday>> RunAsync(Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => FindAsync(db, scope.AgencyId, stop), stop);

    internal static async Task<IReadOnlyList<FederalHoliday>> FindAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        var terms = await db.Terms.Where(t => t.AgencyId == agency).ToListAsync(stop);
        if (terms.Count == 0)
            return [];
        var taken = await db.Closures.Where(c => c.AgencyId == agency && c.Live).Select(c => c.OnDay).ToListAsync(stop);
        return
        [
            .. FederalHolidays.Between(terms.Min(t => t.FirstDay), terms.Max(t => t.LastDay))
                .Where(h => row.IsOrdinary(h.OnDay) && !taken.Contains(h.OnDay) && terms.Exists(t => t.FirstDay <= h.OnDay && h.OnDay <= t.LastDay)),
        ];
    }
}
