using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>Visits that stand on a day which was closed after they were scheduled.</summary>
internal static class ClosureVisits
{
    /// <summary>Planned visits on closures, for which nobody said that they take place all the same.</summary>
    public static IQueryable<VisitRow> Standing(PortalDb db, int agency) => Planned(db, agency)
        .Where(v => db.Closures.Any(c => c.AgencyId == agency && c.Live && c.Kind != ClosureKind.Extra && c.OnDay == v.OnDay));

    /// <summary>The same on days that are known to be closed.</summary>
    /// <remarks>Two halves, since each has an index of its own by day: with a list of days the database looks for these in a whole agency's visits.</remarks>
    public static IQueryable<VisitRow> Standing(PortalDb db, int agency, LocalDate[] closed)
    {
        var planned = Planned(db, agency).Where(v => closed.Contains(v.OnDay));
        return planned.Where(v => v.AwardId == null).Concat(planned.Where(v => v.AwardId != null));
    }

    private static IQueryable<VisitRow> Planned(PortalDb db, int agency) =>
        db.Visits.Where(v => v.AgencyId == agency && v.Live && v.State == VisitState.Planned && !v.OnClosedDay);

    /// <summary>Brings back what was called off for a closure.</summary>
    /// <returns>How many came back, and those that could not.</returns>
    public static async Task<(int Back, IReadOnlyList<KeptVisit> Lost)> BringBackAsync(PortalDb db, ClosureRow closure, CancellationToken stop)
    {
        var held = await db.Visits.Where(v => v.AgencyId == closure.AgencyId && v.ClosureId == closure.Id && v.Live && v.State == VisitState.CalledOff)
            .OrderBy(v => v.StartTime).ToListAsync(stop);
        var lost = await CalledOffVisits.BringBackAsync(db, held, stop);
        return (held.Count - lost.Count, lost);
    }
}
