using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.People;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Routines;

/// <summary>What a family taps on its page about practising at home.</summary>
/// <param name="IsOn">False where the agency has not switched it on, where the case manager does not let this person, and where the learner is quiet.</param>
/// <param name="Cards">The routines that are for home, by name, with today's own answer.</param>
/// <param name="Taps">Own answers of the last days, the latest first.</param>
public sealed record HomeTapsPage(int LearnerId, string Child, bool IsOn, IReadOnlyList<HomeCard> Cards, IReadOnlyList<HomeTap> Taps);

/// <param name="Today">Null where nothing was tapped today.</param>
public sealed record HomeCard(int Routine, string Name, HomeTap? Today);

public sealed record HomeTap(int Id, int RoutineId, string Routine, LocalDate OnDay, HomeAnswer Answer);

/// <summary>Reads what somebody of a family tapped themselves: never what another home of the child did.</summary>
public sealed class ReadHomeTaps(Portal portal)
{
    private const int Days = 14;

    /// <summary>Null where the scope reaches no such child.</summary>
    public Task<HomeTapsPage?> RunAsync(Caller caller, Scope scope, int child, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == child).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        if (!await MayTapAsync(db, caller, child, stop))
            return new HomeTapsPage(child, name, false, [], []);
        var since = caller.Today.PlusDays(1 - Days);
        var taps = await Own(db, caller, child).Where(h => h.OnDay >= since && h.OnDay <= caller.Today)
            .Join(db.Routines, h => new { h.AgencyId, h.LearnerId, Id = h.RoutineId }, r => new { r.AgencyId, r.LearnerId, r.Id }, (h, r) => new HomeTap(h.Id, r.Id, r.Name, h.OnDay, h.Answer)).ToListAsync(stop);
        var cards = await ForHomeAsync(db, caller, child, stop);
        return new HomeTapsPage(
            child, name, true, [.. cards.Select(c => new HomeCard(c.Id, c.Name, taps.Find(t => t.RoutineId == c.Id && t.OnDay == caller.Today)))],
            [.. taps.OrderByDescending(t => t.OnDay).ThenBy(t => t.Routine, StringComparer.OrdinalIgnoreCase)]);
    }, stop);

    /// <summary>What the caller tapped and did not take back.</summary>
    internal static IQueryable<HomeLogRow> Own(PortalDb db, Caller caller, int learner) =>
        db.HomeLogs.Where(h => h.AgencyId == caller.AgencyId && h.LearnerId == learner && h.ByFamily && h.RecordedBy == caller.PersonId);

    /// <summary>Whether the agency has it switched on and the case manager lets the caller; never while the learner is quiet.</summary>
    internal static async Task<bool> MayTapAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) =>
        caller.IsFamilyOf(learner)
        && await db.Agencies.AnyAsync(a => a.Id == caller.AgencyId && a.HomeTaps && db.Relations.Any(r => r.AgencyId == a.Id && r.LearnerId == learner && r.PersonId == caller.PersonId
            && r.Kind == Relation.Family && r.TapsAtHome && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)), stop)
        && !await QuietLearners.HasAsync(db, caller.AgencyId, learner, stop);

    /// <summary>Routines that are planned at home now, by name; none that a hold stops or that waits for its review.</summary>
    internal static async Task<IReadOnlyList<NamedId>> ForHomeAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var (agency, today) = (caller.AgencyId, caller.Today);
        var planned = await db.Routines.Where(r => r.AgencyId == agency && r.LearnerId == learner && r.Live
                && db.HomePractice.Any(h => h.AgencyId == agency && h.LearnerId == learner && h.RoutineId == r.Id && (h.OnDay == null || h.OnDay == today)))
            .OrderBy(r => r.Name).Select(r => new NamedId(r.Id, r.Name)).ToListAsync(stop);
        if (planned.Count == 0)
            return planned;
        var holds = (await HoldFacts.ReadAsync(db, agency, [learner], ended: false, stop))[learner].ToList();
        var missing = (await CardFacts.NewestAsync(db, agency, [.. planned.Select(p => p.Id)], today, stop)).Where(c => c.Review.State == ReviewState.Missing).Select(c => c.Routine).ToHashSet();
        return [.. planned.Where(p => !missing.Contains(p.Id) && !holds.Exists(h => h.Stops.ContainsKey(p.Id)))];
    }
}
