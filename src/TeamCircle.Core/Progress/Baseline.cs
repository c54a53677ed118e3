using NodaTime;

namespace TeamCircle.Core.Progress;

/// <summary>Where a goal began (docs/rules.md, part 13): the median of at least three points before teaching, or the present level that the plan states.</summary>
/// <param name="Level">The median, or the plan's level.</param>
/// <param name="Day">The last day before teaching, from which an aimline starts; the plan's own day for a stated level.</param>
/// <param name="Points">How many points it rests on; 0 for a stated level.</param>
public sealed record Baseline(decimal Level, LocalDate Day, int Points)
{
    /// <summary>Fewer points than this make no baseline.</summary>
    public const int FewestPoints = 3;

    /// <summary>From points where there are enough, otherwise as the plan states it, otherwise null.</summary>
    /// <param name="counted">Only points of the kind that counts for the goal.</param>
    /// <param name="stated">The plan's present level with its day.</param>
    public static Baseline? Of(IEnumerable<GoalPoint> counted, LocalDate? teachingFrom, (decimal Level, LocalDate Day)? stated)
    {
        var before = counted.Where(p => GoalStages.Of(p, teachingFrom) == Stage.BeforeTeaching).ToList();
        if (before.Count >= FewestPoints)
            return new(Median.Of(before.Select(p => p.Value)), before.Max(p => p.Day), before.Count);
        return stated is { } plan ? new(plan.Level, plan.Day, 0) : null;
    }
}
