using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Pages.Progress;

namespace TeamCircle.Web.Ui;

/// <summary>A goal's points on a small strip: from its first point to today, from the least value to the most.</summary>
/// <param name="Words">The same for those who do not see it, and beside it for those who do.</param>
public sealed record GoalStrip(
    LocalDate First, LocalDate Last, decimal Least, decimal Most, decimal? Target, LocalDate? TeachingFrom, IReadOnlyList<StripPoint> Points, string Words)
{
    /// <summary>Null where nothing is recorded yet.</summary>
    public static GoalStrip? Of(GoalShown goal, LocalDate today)
    {
        if (goal.Points.Count == 0)
            return null;
        var values = goal.Points.Select(p => p.Value).ToList();
        if (goal.Target is { } target)
            values.Add(target);
        return new(
            goal.Points[0].Day, LocalDate.Max(today, goal.Points[^1].Day), Floor(goal.Terms.Measure, values.Min()), Ceiling(goal.Terms.Measure, values.Max()),
            goal.Target, goal.Terms.TeachingFrom, goal.Points, Say(goal));
    }

    private static decimal Floor(Measure measure, decimal least) => measure == Measure.OwnScale ? least : 0;

    private static decimal Ceiling(Measure measure, decimal most) => measure == Measure.PercentIndependent ? 100 : most;

    /// <summary>40 probes, 6 of teaching; the latest on 20 November: 62.5 percent without help, 5 of 8</summary>
    private static string Say(GoalShown goal)
    {
        var (probes, latest) = (goal.Points.Count(p => p.Kind == ProbeKind.Probe), goal.Points[^1]);
        var teaching = goal.Points.Count - probes;
        var counts = teaching > 0 ? $"{Ui.Say.Probes(probes)}, {Ui.Say.Number(teaching)} of teaching" : Ui.Say.Probes(probes);
        return $"{counts}; the latest on {Ui.Say.Day(latest.Day)}: {ProbeWords.Value(goal.Terms.Measure, latest.Value, latest.Opportunities)}";
    }
}
