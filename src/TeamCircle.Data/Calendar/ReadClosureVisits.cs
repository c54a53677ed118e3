using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Calendar;

/// <summary>A closure, and how many visits it touches. Counts only: whose visits they are is no business of the agency's calendar.</summary>
/// <param name="Standing">Planned visits on it, by the name of who gives them; those that somebody said take place all the same are left out.</param>
/// <param name="Anyway">How many of those there are.</param>
/// <param name="Cancelled">How many were cancelled for it.</param>
/// <param name="IsPast">Then nothing is cancelled any more.</param>
public sealed record ClosureVisitsPage(ClosureView Closure, IReadOnlyList<(string Provider, int Visits)> Standing, int Anyway, int Cancelled, bool IsPast)
{
    public int StandingCount => Standing.Sum(s => s.Visits);
}

/// <param name="Standing">Planned visits to come that stand on it, though nobody said that they take place all the same.</param>
/// <param name="Cancelled">Visits that were cancelled for it.</param>
public sealed record ClosureCounts(int Standing, int Cancelled);

/// <summary>Reads how many visits closures touch.</summary>
public sealed class ReadClosureVisits(Portal portal)
{
    /// <summary>The closures that touch any, by their number.</summary>
    public Task<Dictionary<int, ClosureCounts>> AllAsync(Scope scope, Caller caller, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var standing = await ClosureVisits.Standing(db, scope.AgencyId).Where(v => v.OnDay >= caller.Today)
            .GroupBy(v => v.OnDay).Select(g => new { g.Key, Visits = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Visits, stop);
        var cancelled = await db.Visits.Where(v => v.AgencyId == scope.AgencyId && v.ClosureId != null && v.Live && v.State == VisitState.CalledOff)
            .GroupBy(v => v.ClosureId!.Value).Select(g => new { g.Key, Visits = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Visits, stop);
        var closures = await db.Closures.Where(c => c.AgencyId == scope.AgencyId && c.Live && c.Kind != ClosureKind.Extra)
            .Select(c => new { c.Id, c.OnDay }).ToListAsync(stop);
        return closures.Select(c => (c.Id, Counts: new ClosureCounts(standing.GetValueOrDefault(c.OnDay), cancelled.GetValueOrDefault(c.Id))))
            .Where(c => c.Counts is not { Standing: 0, Cancelled: 0 }).ToDictionary(c => c.Id, c => c.Counts);
    }, stop);

    /// <summary>Null where no such closure holds.</summary>
    public Task<ClosureVisitsPage?> RunAsync(Scope scope, Caller caller, int closure, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var shown = await db.Closures.Where(c => c.AgencyId == scope.AgencyId && c.Id == closure && c.Live && c.Kind != ClosureKind.Extra)
            .Select(c => new ClosureView(c.Id, c.Version, c.OnDay, c.Name, c.Kind, c.Reason)).SingleOrDefaultAsync(stop);
        return shown is null ? null : await FindAsync(db, scope.AgencyId, caller.Today, shown, stop);
    }, stop);

    private static async Task<ClosureVisitsPage> FindAsync(PortalDb db, int agency, LocalDate today, ClosureView closure, CancellationToken stop)
    {
        var standing = await ClosureVisits.Standing(db, agency).Where(v => v.OnDay == closure.OnDay)
            .Join(db.People, v => new { v.AgencyId, Id = v.ProviderId }, p => new { p.AgencyId, p.Id }, (_, p) => p.Name)
            .GroupBy(name => name).Select(g => new { Name = g.Key, Visits = g.Count() }).OrderBy(g => g.Name).ToListAsync(stop);
        var anyway = await db.Visits.CountAsync(v => v.AgencyId == agency && v.Live && v.State == VisitState.Planned && v.OnClosedDay && v.OnDay == closure.OnDay, stop);
        var cancelled = await db.Visits.CountAsync(v => v.AgencyId == agency && v.ClosureId == closure.Id && v.Live && v.State == VisitState.CalledOff, stop);
        return new(closure, [.. standing.Select(s => (s.Name, s.Visits))], anyway, cancelled, closure.OnDay < today);
    }
}
