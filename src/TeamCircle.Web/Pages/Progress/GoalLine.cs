using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>A straight line of a goal's chart: drawn from the table that says it in numbers.</summary>
/// <param name="Name">By which the chart knows how to draw it.</param>
/// <param name="Words">What it is called.</param>
/// <param name="About">What it rests on.</param>
public sealed record GoalLine(string Name, string Words, LocalDate From, double FromValue, LocalDate To, double ToValue, string About)
{
    /// <summary>Those that there is something to draw of.</summary>
    public static IEnumerable<GoalLine> Of(GoalCoursePage goal, GoalStanding standing)
    {
        if (standing.Baseline is { } baseline)
            yield return Baseline(goal, standing, baseline);
        if (standing.Aimline is { } aim)
            yield return new("aimline", "aimline", Day.Date(aim.BaselineDay), (double)aim.Baseline, Day.Date(aim.TargetDay), (double)aim.Target, $"{GoalCourseWords.Slope(aim.PerWeek)} a week");
        else if (goal.Target is { } target)
            yield return Level("target", "target", goal, target, "the value to reach");
        if (standing.Trend.Slope.Value is not null && standing.Taught is [var first, .., var last])
            yield return new("trend", "trend", first.Day, standing.TrendOn(first.Day)!.Value, last.Day, standing.TrendOn(last.Day)!.Value, GoalCourseWords.Trend(standing));
        if (goal.Terms.Chance is { } chance)
            yield return Level("chance", "by chance", goal, chance, "what guessing between two would give");
    }

    private static GoalLine Baseline(GoalCoursePage goal, GoalStanding standing, Baseline baseline)
    {
        var before = goal.Live.Select(p => p.Point).Where(p => GoalStages.Of(p, standing.TeachingFrom) == Stage.BeforeTeaching).Select(p => p.Day).ToList();
        var from = before.Count > 0 && baseline.Points > 0 ? before.Min() : baseline.Day;
        return new("baseline", "baseline", from, (double)baseline.Level, standing.TeachingFrom ?? baseline.Day, (double)baseline.Level, GoalCourseWords.RestsOn(baseline));
    }

    /// <summary>A level over the whole chart, from the goal's first day to its last, or to today.</summary>
    private static GoalLine Level(string name, string words, GoalCoursePage goal, decimal level, string about) =>
        new(name, words, goal.FromDay, (double)level, LocalDate.Min(goal.ToDay, LocalDate.Max(goal.AsOf, goal.FromDay)), (double)level, about);
}
