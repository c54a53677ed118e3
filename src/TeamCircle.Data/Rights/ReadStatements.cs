using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Rights;

namespace TeamCircle.Data.Rights;

/// <summary>A parent's statement, with what it stands beside.</summary>
/// <param name="On">The day of the visit or probe that it stands beside; null for a report and for the record as a whole.</param>
public sealed record StatementShown(int Id, StatementPlace Place, LocalDate? On, string Words, string GivenBy, LocalDate GivenOn, int Request);

/// <summary>Reads the statements of parents that travel with a record (34 CFR 300.620(c)). A family reads them beside what it is shown.</summary>
public sealed class ReadStatements(Portal portal)
{
    /// <summary>Those beside one entry, the oldest first: the same as <see cref="BesideAsync"/>, in a transaction of its own.</summary>
    public Task<IReadOnlyList<StatementShown>> RunAsync(Scope scope, int learner, StatementPlace place, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => BesideAsync(db, scope.AgencyId, learner, place, stop), stop);

    /// <summary>All of a learner, the oldest first: for a page that shows many entries at once.</summary>
    public Task<IReadOnlyList<StatementShown>> AllAsync(Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => AllAsync(db, scope.AgencyId, learner, stop), stop);

    /// <summary>Those beside one entry, the oldest first. What stands beside the record as a whole is not among them, unless that is asked for.</summary>
    /// <remarks>A corrected probe keeps the statement that was put beside an earlier one of its row of corrections.</remarks>
    internal static async Task<IReadOnlyList<StatementShown>> BesideAsync(PortalDb db, int agency, int learner, StatementPlace place, CancellationToken stop)
    {
        var all = await AllAsync(db, agency, learner, stop);
        if (place.Probe is not { } probe || !all.Any(s => s.Place.About == StatementAbout.Probe))
            return [.. all.Where(s => s.Place == place)];
        var replaces = await db.Probes.Where(p => p.AgencyId == agency && p.LearnerId == learner && p.Replaces != null).ToDictionaryAsync(p => p.Id, p => p.Replaces!.Value, stop);
        List<Guid> chain = [probe];
        while (replaces.TryGetValue(chain[^1], out var before))
            chain.Add(before);
        return [.. all.Where(s => s.Place.Probe is { } beside && chain.Contains(beside))];
    }

    /// <summary>All of a learner, the oldest first.</summary>
    internal static async Task<IReadOnlyList<StatementShown>> AllAsync(PortalDb db, int agency, int learner, CancellationToken stop) =>
        [.. (await (
            from s in db.ParentStatements
            where s.AgencyId == agency && s.LearnerId == learner
            orderby s.GivenOn, s.Id
            select new
            {
                Row = s,
                Visited = db.Visits.Where(v => v.AgencyId == s.AgencyId && v.Id == s.VisitId).Select(v => (LocalDate?)v.OnDay).FirstOrDefault(),
                Probed = db.Probes.Where(p => p.AgencyId == s.AgencyId && p.Id == s.ProbeId).Select(p => (LocalDate?)p.OnDay).FirstOrDefault(),
            }).ToListAsync(stop))
            .Select(s => new StatementShown(
                s.Row.Id, new(s.Row.About, s.Row.VisitId, s.Row.ProbeId, s.Row.ReportId), s.Visited ?? s.Probed, s.Row.Words, s.Row.GivenBy, s.Row.GivenOn, s.Row.RequestId))];
}
