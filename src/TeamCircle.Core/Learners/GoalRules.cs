using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Learners;

/// <summary>What the case manager writes of a goal.</summary>
public sealed record GoalStatement(string? Area, string? Statement, decimal? Target, LocalDate? TargetDay);

/// <summary>What the goal's owners write.</summary>
/// <param name="CriterionDays">k of "k of the last n days"; null with <paramref name="CriterionOf"/> where there is no criterion yet.</param>
public sealed record GoalMeasure(Measure Measure, Better Better, decimal? Baseline, int? CriterionDays, int? CriterionOf);

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
        if (goal.Measure == Measure.PercentIndependent && goal.Baseline is < 0 or > 100)
            yield return new("Baseline", "Give a percent from 0 to 100.");
        else if (goal.Baseline < 0)
            yield return new("Baseline", "Give a number of 0 or more.");
        if (goal.CriterionDays is null != goal.CriterionOf is null)
            yield return new("CriterionDays", "Give both numbers, or leave both empty: on so many of the last so many days.");
        else if (goal.CriterionDays is { } days && (days < 1 || goal.CriterionOf < days))
            yield return new("CriterionDays", "Give whole numbers, the first not more than the second.");
    }

    /// <summary>A target must lie in its measure's range; its writer is another than the measure's, so it is looked at with both.</summary>
    public static Problem? TargetProblem(decimal? target, Measure measure) => target switch
    {
        null => null,
        < 0 => new("Target", "Give a number of 0 or more."),
        > 100 when measure == Measure.PercentIndependent => new("Target", "Give a percent from 0 to 100."),
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
