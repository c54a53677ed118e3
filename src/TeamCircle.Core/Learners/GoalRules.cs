using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Learners;

/// <summary>What the case manager writes of a goal.</summary>
public sealed record GoalStatement(string? Area, string? Statement, decimal? Target, LocalDate? TargetDay);

/// <summary>What the goal's owners write.</summary>
/// <param name="Baseline">The level at the start as the plan states it; null where it is taken from probes before teaching.</param>
/// <param name="CriterionDays">k of "k of the last n days"; null with <paramref name="CriterionOf"/> where there is no criterion yet. The same
/// number twice means k days in a row.</param>
public sealed record GoalMeasure(Measure Measure, Better Better, decimal? Baseline, int? CriterionDays, int? CriterionOf)
{
    /// <summary>When the stated level was seen, under which conditions, and where that is written.</summary>
    public LocalDate? PresentDay { get; init; }
    public string? PresentConditions { get; init; }
    public string? PresentSource { get; init; }

    /// <summary>Opportunities that a point needs to count towards the criterion; null for no such demand. So are the next two.</summary>
    public int? CriterionFewest { get; init; }
    public int? CriterionPeople { get; init; }
    public int? CriterionPlaces { get; init; }

    /// <summary>What pure chance would give, for a choice of two; in the unit of the measure.</summary>
    public decimal? Chance { get; init; }

    /// <summary>When upkeep is looked at, in weeks after mastery; empty: never.</summary>
    public IReadOnlyList<int> UpkeepWeeks { get; init; } = UsualUpkeep;

    /// <summary>How many points in a row raise a question to the team.</summary>
    public int InARow { get; init; } = UsualInARow;

    public const int UsualInARow = 4;

    public static readonly IReadOnlyList<int> UsualUpkeep = [2, 4, 8];
}

/// <summary>A short-term objective as typed; an empty statement takes it away.</summary>
public sealed record ObjectiveEntry(string? Statement, LocalDate? TargetDay);

/// <summary>How many probes in each window, and whether by each owner or by all of them together.</summary>
public sealed record ProbesEntry(int? Probes, EveryUnit EveryUnit, int EveryCount, bool ByEach)
{
    public Every Every => new(EveryUnit, EveryCount);
}

/// <summary>Who writes which part of a goal: the case manager its statement and target, its owners how it is measured.</summary>
public readonly record struct GoalRights(bool Statement, bool Measure)
{
    public bool Any => Statement || Measure;
}

/// <summary>What holds for a goal.</summary>
public static class GoalRules
{
    private const int MostProbes = 100;
    private const int MostUpkeepWeeks = 104;

    public static IEnumerable<Problem> Check(GoalStatement goal, PlanDates dates)
    {
        if (string.IsNullOrWhiteSpace(goal.Area))
            yield return new("Area", "Give a heading, such as \"Switch use\".");
        if (string.IsNullOrWhiteSpace(goal.Statement))
            yield return new("Statement", "Write the goal as it stands in the plan.");
        if (goal.TargetDay is { } day && day < dates.StartDay)
            yield return new("TargetDay", "The target date comes before the goal's first day.");
    }

    public static IEnumerable<Problem> Check(GoalMeasure goal)
    {
        if (LevelProblem(goal.Baseline, goal.Measure) is { } baseline)
            yield return new("Baseline", baseline);
        if (LevelProblem(goal.Chance, goal.Measure) is { } chance)
            yield return new("Chance", chance);
        if (goal.Baseline is null && (goal.PresentDay is not null || !string.IsNullOrWhiteSpace(goal.PresentConditions + goal.PresentSource)))
            yield return new("Baseline", "Give the level that was seen then, or leave its day, conditions and source empty.");
        if (goal.InARow is not (3 or GoalMeasure.UsualInARow))
            yield return new("InARow", "Choose three or four in a row: both are published.");
        foreach (var problem in CriterionProblems(goal).Concat(UpkeepProblems(goal.UpkeepWeeks)))
            yield return problem;
    }

    private static IEnumerable<Problem> CriterionProblems(GoalMeasure goal)
    {
        if (goal.CriterionDays is null != goal.CriterionOf is null)
            yield return new("CriterionDays", "Give both numbers, or leave both empty: on so many of the last so many days.");
        else if (goal.CriterionDays is { } days && (days < 1 || goal.CriterionOf < days))
            yield return new("CriterionDays", "Give whole numbers, the first not more than the second.");
        if (goal.CriterionFewest < 1)
            yield return new("CriterionFewest", "Give 1 or more, or leave it empty.");
        if (goal.CriterionPeople < 1)
            yield return new("CriterionPeople", "Give 1 or more, or leave it empty.");
        if (goal.CriterionPlaces < 1)
            yield return new("CriterionPlaces", "Give 1 or more, or leave it empty.");
        if (goal.CriterionDays is null && (goal.CriterionFewest ?? goal.CriterionPeople ?? goal.CriterionPlaces) is not null)
            yield return new("CriterionDays", "Say on how many days, too.");
    }

    private static IEnumerable<Problem> UpkeepProblems(IReadOnlyList<int> weeks)
    {
        if (weeks.Any(w => w is < 1 or > MostUpkeepWeeks) || weeks.Zip(weeks.Skip(1)).Any(pair => pair.Second <= pair.First))
            yield return new("UpkeepWeeks", "Give weeks from 1 to 104, each later than the one before.");
    }

    /// <summary>A target must lie in its measure's range; its writer is another than the measure's, so it is looked at with both.</summary>
    public static Problem? TargetProblem(decimal? target, Measure measure) =>
        LevelProblem(target, measure) is { } problem ? new("Target", problem) : null;

    private static string? LevelProblem(decimal? level, Measure measure) => level switch
    {
        null => null,
        _ when measure == Measure.OwnScale => null,
        < 0 => "Give a number of 0 or more.",
        > 100 when measure == Measure.PercentIndependent => "Give a percent from 0 to 100.",
        _ => null,
    };

    public static IEnumerable<Problem> Check(ProbesEntry entry)
    {
        if (entry.Probes is not (>= 0 and <= MostProbes))
            yield return new("Probes", "Give how many probes, or 0 for none.");
        if (ServiceRules.EveryProblem(entry.Every) is { } problem)
            yield return problem;
    }

    /// <summary>Problems of dates within the plan.</summary>
    public static IEnumerable<Problem> CheckDates(LocalDate? from, LocalDate? to, PlanDates plan)
    {
        if (from is not { } first || !plan.Holds(first))
            yield return new("FromDay", "Give a first day within the plan's dates.");
        if (to is not { } last || !plan.Holds(last) || last < from)
            yield return new("ToDay", "Give a last day within the plan's dates, on or after the first.");
    }
}
