using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Routines;

/// <summary>What was practised at home with a learner, and the routines to choose from.</summary>
/// <param name="Logs">The newest first.</param>
public sealed record HomeLogsPage(string Learner, IReadOnlyList<NamedId> Routines, IReadOnlyList<HomeLogShown> Logs);

/// <param name="By">Who entered it.</param>
public sealed record HomeLogShown(int Id, LocalDate OnDay, string Routine, string Who, string? HowItWent, string By);

/// <summary>Reads what was practised at home.</summary>
public sealed class ReadHomeLogs(Portal portal)
{
    private const int MostListed = 50;

    /// <summary>Null for whoever may not write for the learner's team.</summary>
    public async Task<HomeLogsPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        ReadRoutines.MayWrite(caller, learner) ? await portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, learner, stop), stop) : null;

    private static async Task<HomeLogsPage?> ReadAsync(PortalDb db, int agency, int learner, CancellationToken stop)
    {
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var routines = await db.Routines.Where(r => r.AgencyId == agency && r.LearnerId == learner && r.Live).OrderBy(r => r.Name)
            .Select(r => new NamedId(r.Id, r.Name)).ToListAsync(stop);
        var logs = await (
            from h in db.HomeLogs
            join r in db.Routines on new { h.AgencyId, h.LearnerId, Id = h.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
            join p in db.People on new { h.AgencyId, Id = h.RecordedBy } equals new { p.AgencyId, p.Id }
            where h.AgencyId == agency && h.LearnerId == learner
            orderby h.OnDay descending, h.Id descending
            select new HomeLogShown(h.Id, h.OnDay, r.Name, h.Who, h.HowItWent, p.Name)).Take(MostListed).ToListAsync(stop);
        return new(name, routines, logs);
    }
}
