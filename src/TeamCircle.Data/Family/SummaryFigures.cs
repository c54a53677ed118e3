using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Family;

/// <summary>Brings together what is on record for a summary.</summary>
internal static class SummaryFigures
{
    /// <summary>Visits to come are told so many days ahead.</summary>
    private const int DaysAhead = 14;

    /// <summary>So many checks of a goal are drawn at the most.</summary>
    private const int MostPoints = 12;

    /// <param name="first">Both days belong to the span; what is dated later than today is left out.</param>
    public static async Task<SummaryFacts> ReadAsync(PortalDb db, Caller caller, int learner, LocalDate first, LocalDate last, CancellationToken stop)
    {
        var coming = await ReadFamilyFacts.VisitsAsync(db, caller.AgencyId, learner, caller.Today, caller.Today.PlusDays(DaysAhead - 1), stop);
        return new(
            await ReadFamilyFacts.VisitsAsync(db, caller.AgencyId, learner, first, last, stop), await PractisedAsync(db, caller.AgencyId, learner, first, last, stop),
            await GoalsAsync(db, caller.AgencyId, learner, first, last, stop), coming, await HomeAsync(db, caller, learner, stop));
    }

    private static async Task<IReadOnlyList<PractisedRoutine>> PractisedAsync(PortalDb db, int agency, int learner, LocalDate first, LocalDate last, CancellationToken stop)
    {
        var logged = await db.Sessions.Where(s => s.AgencyId == agency && s.LearnerId == learner && s.Live && s.Outcome == VisitOutcome.Given && s.OnDay >= first && s.OnDay <= last)
            .Select(s => s.Routines).ToListAsync(stop);
        var names = await db.Routines.Where(r => r.AgencyId == agency && r.LearnerId == learner).ToDictionaryAsync(r => r.Id, r => r.Name, stop);
        return [.. logged.SelectMany(r => r.Distinct()).Where(names.ContainsKey).CountBy(r => r)
            .OrderByDescending(r => r.Value).ThenBy(r => names[r.Key], StringComparer.Ordinal).Select(r => new PractisedRoutine(names[r.Key], r.Value))];
    }

    private static async Task<IReadOnlyList<SummaryGoalFacts>> GoalsAsync(PortalDb db, int agency, int learner, LocalDate first, LocalDate last, CancellationToken stop)
    {
        var goals = await db.Goals.Where(g => g.AgencyId == agency && g.LearnerId == learner && g.FromDay <= last && g.ToDay >= first)
            .OrderBy(g => g.Position).ThenBy(g => g.Id).ToListAsync(stop);
        var ids = goals.ConvertAll(g => g.Id);
        var probes = (await db.Probes.Where(p => p.AgencyId == agency && p.LearnerId == learner && p.Live && ids.Contains(p.GoalId) && p.OnDay >= first && p.OnDay <= last)
            .OrderBy(p => p.OnDay).ThenBy(p => p.RecordedAt).ThenBy(p => p.Id).Select(p => new { p.GoalId, p.Kind, p.OnDay, p.Value, p.Opportunities }).ToListAsync(stop))
            .ToLookup(p => p.GoalId);
        return [.. goals.Select(g => new SummaryGoalFacts(g.Id, g.Statement, new(g.PlainEnglish, g.PlainSpanish), g.Measure, g.Better,
            [.. probes[g.Id].Where(p => p.Kind == g.Counts).TakeLast(MostPoints).Select(p => new SummaryPoint(p.OnDay, p.Value, p.Opportunities))]))];
    }

    private static async Task<IReadOnlyList<HomeCard>> HomeAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var rows = await (
            from h in db.HomePractice
            join r in db.Routines on new { h.AgencyId, h.LearnerId, Id = h.RoutineId } equals new { r.AgencyId, r.LearnerId, r.Id }
            where h.AgencyId == caller.AgencyId && h.LearnerId == learner && r.Live && (h.Weekday != null || h.OnDay >= caller.Today)
            orderby r.Name, h.Weekday, h.OnDay
            select new { r.Id, r.Name, h.Weekday, h.OnDay, h.Who, r.ObjectCue }).ToListAsync(stop);
        return [.. rows.GroupBy(r => r.Id).Select(g => new HomeCard(
            g.First().Name, [.. g.Select(r => r.Weekday).OfType<IsoDayOfWeek>().Distinct().Order()], [.. g.Select(r => r.OnDay).OfType<LocalDate>().Distinct().Order()],
            g.Select(r => r.Who).FirstOrDefault(w => w is not null), g.First().ObjectCue))];
    }
}
