using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Progress;

namespace TeamCircle.Data.Progress;

/// <summary>Effects of one goal, for the record.</summary>
/// <param name="TeachingFrom">Null where nobody said and no datum tells.</param>
/// <param name="Before">How many counted points lie before teaching.</param>
/// <param name="During">How many lie during it; upkeep and what was taken elsewhere are none of them.</param>
public sealed record EffectsPage(
    int Id, int LearnerId, string Learner, string Area, string Statement, Better Better, ProbeKind Counts, LocalDate? TeachingFrom,
    int Before, int During, Overlap Overlap);

/// <summary>Reads the effects of one goal.</summary>
public sealed class ReadEffects(Portal portal)
{
    /// <summary>Null where the scope reaches no such goal. Two statements.</summary>
    public Task<EffectsPage?> RunAsync(Scope scope, int goal, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var found = await (
            from g in db.Goals
            join l in db.Learners on new { g.AgencyId, Id = g.LearnerId } equals new { l.AgencyId, l.Id }
            where g.AgencyId == scope.AgencyId && g.Id == goal
            select new { Goal = g, Learner = l.Name }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        var probes = await db.Probes.Where(p => p.AgencyId == scope.AgencyId && p.GoalId == goal && p.Live).OrderBy(p => p.OnDay).ThenBy(p => p.Id)
            .Select(p => new { p.OnDay, p.Value, p.Opportunities, p.Kind, p.ProviderId, p.Stage }).ToListAsync(stop);
        List<GoalPoint> points = [.. probes.Select(p => new GoalPoint(p.OnDay, p.Value, p.Opportunities, p.Kind, p.ProviderId) { Stage = p.Stage })];
        var row = found.Goal;
        var from = GoalStages.TeachingFrom(row.TeachingFrom, points);
        var byStage = points.Where(p => p.Kind == row.Counts).ToLookup(p => GoalStages.Of(p, from), p => p.Value);
        List<decimal> before = [.. byStage[Stage.BeforeTeaching]], during = [.. byStage[Stage.DuringTeaching]];
        return new EffectsPage(
            goal, row.LearnerId, found.Learner, row.Area, row.Statement, row.Better, row.Counts, from, before.Count, during.Count,
            Overlap.Of(before, during, row.Better));
    }, stop);
}
