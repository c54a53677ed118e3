using NodaTime;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Core.Learners;

/// <summary>The dates of a plan; both ends belong to it.</summary>
public sealed record PlanDates(LocalDate StartDay, LocalDate EndDay)
{
    public bool Holds(LocalDate day) => StartDay <= day && day <= EndDay;
}

/// <summary>What holds for the dates of a plan.</summary>
public static class PlanRules
{
    /// <summary>All problems at once; none where the plan can start.</summary>
    /// <param name="others">The learner's other plans.</param>
    public static IEnumerable<Problem> Check(LocalDate? start, LocalDate? end, IEnumerable<PlanDates> others)
    {
        if (start is null)
            yield return new("StartDay", "Give the plan's first day.");
        if (end is null)
            yield return new("EndDay", "Give the plan's last day.");
        if (start is not { } first || end is not { } last)
            yield break;
        if (last < first)
            yield return new("EndDay", "The last day comes before the first.");
        else if (Period.DaysBetween(first, last) >= NamedRanges.LongestDays)
            yield return new("EndDay", "A plan holds for about a year. Check the year.");
        else if (others.Any(o => o.StartDay <= last && first <= o.EndDay))
            yield return new("StartDay", "Another plan of this learner already covers some of these days.");
    }

    /// <summary>Problems of other dates for a plan that has services and goals; none where they stay within it.</summary>
    public static IEnumerable<Problem> CheckChange(LocalDate? start, LocalDate? end, IReadOnlyCollection<PlanDates> parts, string? reason)
    {
        if (parts.Any(p => p.StartDay < start))
            yield return new("StartDay", "A service or goal of this plan begins before that day.");
        if (parts.Any(p => p.EndDay > end))
            yield return new("EndDay", "A service or goal of this plan lasts longer. Give it an earlier last day first.");
        if (string.IsNullOrWhiteSpace(reason))
            yield return new("Reason", "Say why the plan's dates change.");
    }
}
