using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Progress;

/// <summary>What a goal aims at, and which of its data count.</summary>
public sealed record GoalAims(Better Better, ProbeKind Counts)
{
    public decimal? Target { get; init; }
    public LocalDate? TargetDay { get; init; }

    /// <summary>As written; null: not said.</summary>
    public LocalDate? TeachingFrom { get; init; }

    /// <summary>The present level that the plan states, with its day.</summary>
    public (decimal Level, LocalDate Day)? Stated { get; init; }

    public Criterion? Criterion { get; init; }

    public IReadOnlyList<int> UpkeepWeeks { get; init; } = [];

    /// <summary>How many points in a row raise a question.</summary>
    public int InARow { get; init; } = Questions.Usual;

    /// <summary>The day before which values cannot be compared with later ones, since the order of prompts changed; null where all can.</summary>
    public LocalDate? ComparableFrom { get; init; }
}

/// <summary>Where a goal stands: from where to where it leads, how it moves, what that asks the team, whether it is mastered.</summary>
/// <param name="TeachingFrom">When teaching began, as written or as the data say; null where neither does.</param>
/// <param name="Aimline">Null with its reason in <paramref name="WhyNoAimline"/>.</param>
/// <param name="Taught">The points that the trend, the questions and the projected day rest on: counted, comparable, during teaching or in upkeep,
/// by day. What was taken elsewhere (a new person, place or material) is none of them.</param>
/// <param name="Trend">The Theil–Sen line over them; its slopes are per day.</param>
/// <param name="Standing">Where the last days stand against the criterion; null without one.</param>
/// <param name="Mastered">Each time it was mastered, oldest first.</param>
public sealed record GoalStanding(
    LocalDate? TeachingFrom, Baseline? Baseline, Aimline? Aimline, string? WhyNoAimline, IReadOnlyList<GoalPoint> Taught, TheilSen Trend,
    Projection Projection, CriterionStanding? Standing, IReadOnlyList<Mastered> Mastered)
{
    /// <summary>What the last points ask; null without an aimline.</summary>
    public Question? Asked { get; private init; }

    /// <summary>What the trend asks; null without an aimline or a trend.</summary>
    public Question? AskedByTrend { get; private init; }

    public double? PerWeek => Trend.Slope.Value * 7;

    /// <summary>The trend's value on a day; null where there is no trend.</summary>
    public double? TrendOn(LocalDate day) => Trend.Slope.Value * Day.Of(day) + Trend.Intercept.Value;

    /// <param name="all">All points of the goal; baseline, aimline and mastery rest on them.</param>
    /// <param name="shown">Those that a filter leaves; the trend, the questions and the projected day rest on them.</param>
    public static GoalStanding Of(GoalAims aims, IReadOnlyList<GoalPoint> all, IReadOnlyList<GoalPoint> shown)
    {
        var from = GoalStages.TeachingFrom(aims.TeachingFrom, all);
        var baseline = Progress.Baseline.Of(all.Where(p => p.Kind == aims.Counts), from, aims.Stated);
        var why = WhyNone(aims, baseline);
        var aimline = why is null
            ? new Aimline(Day.Of(baseline!.Day), baseline.Level, Day.Of(aims.TargetDay!.Value), aims.Target!.Value, aims.Better) : null;
        List<GoalPoint> taught = [.. shown.Where(p => p.Kind == aims.Counts && !(p.Day < aims.ComparableFrom)
            && GoalStages.Of(p, from) is Stage.DuringTeaching or Stage.Upkeep).OrderBy(p => p.Day)];
        var trend = TheilSen.Of([.. taught.Select(p => (decimal)Day.Of(p.Day))], [.. taught.Select(p => p.Value)], Confidence.Usual);
        List<DayValue> values = [.. taught.Select(p => new DayValue(Day.Of(p.Day), p.Value))];
        var projection = aims.Target is { } target
            ? Projection.Of(values, trend, target, aims.Better) : new(null, "there is no target", null, null);
        return new(from, baseline, aimline, why, taught, trend, projection, aims.Criterion?.Standing(all), aims.Criterion?.Course(all, aims.UpkeepWeeks) ?? [])
        {
            Asked = aimline is null ? null : Questions.Of(aimline, values, aims.InARow),
            AskedByTrend = aimline is not null && trend.Slope.Value is { } slope ? Questions.OfTrend(aimline, slope * 7) : null,
        };
    }

    private static string? WhyNone(GoalAims aims, Baseline? baseline) => (aims, baseline) switch
    {
        ({ Target: null }, _) => "there is no target",
        ({ TargetDay: null }, _) => "the target has no date",
        (_, null) => "there is no baseline: three probes before teaching, or the plan's present level, make one",
        _ when aims.TargetDay <= baseline.Day => "the target's date is not after the baseline",
        _ => null,
    };
}
