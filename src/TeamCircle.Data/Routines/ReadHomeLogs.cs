using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Routines;

/// <summary>What was practised at home with a learner, and the routines to choose from.</summary>
/// <param name="Logs">The newest first.</param>
public sealed record HomeLogsPage(string Learner, IReadOnlyList<NamedId> Routines, IReadOnlyList<HomeLogShown> Logs)
{
    /// <summary>For the case manager, where the agency lets families tap: those with a family's seat today. Empty otherwise.</summary>
    public IReadOnlyList<HomeTapper> Tappers { get; init; } = [];
}

/// <param name="By">Who entered it.</param>
/// <param name="ByFamily">They tapped it themselves.</param>
public sealed record HomeLogShown(int Id, LocalDate OnDay, string Routine, string Who, HomeAnswer Answer, string? HowItWent, string By, bool ByFamily);

/// <param name="Taps">Whether they may say on the family's page what was practised.</param>
public sealed record HomeTapper(int Person, string Name, bool Taps);

/// <summary>What the team does about practising at home.</summary>
public sealed record HomeTurns(LogAtHome Log, TakeBackHomeLog TakeBack, LetTapAtHome Let);

/// <summary>Reads what was practised at home.</summary>
public sealed class ReadHomeLogs(Portal portal)
{
    private const int MostListed = 50;

    /// <summary>Null for whoever may not write for the learner's team.</summary>
    public async Task<HomeLogsPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        ReadRoutines.MayWrite(caller, learner) ? await portal.ReadAsync(scope, db => ReadAsync(db, caller, learner, stop), stop) : null;

    private static async Task<HomeLogsPage?> ReadAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var agency = caller.AgencyId;
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
            select new HomeLogShown(h.Id, h.OnDay, r.Name, h.Who, h.Answer, h.HowItWent, p.Name, h.ByFamily)).Take(MostListed).ToListAsync(stop);
        return new(name, routines, logs) { Tappers = caller.Manages(learner) ? await TappersAsync(db, caller, learner, stop) : [] };
    }

    private static async Task<IReadOnlyList<HomeTapper>> TappersAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var seats = await (
            from r in db.Relations
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.Kind == Relation.Family && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)
                && db.Agencies.Any(a => a.Id == r.AgencyId && a.HomeTaps)
            orderby p.Name
            select new HomeTapper(p.Id, p.Name, r.TapsAtHome)).ToListAsync(stop);
        return [.. seats.DistinctBy(s => s.Person)];
    }
}
