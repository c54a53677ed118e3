using System.Globalization;
using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Progress;

/// <summary>What a dated change of a goal is about. Changes of waits and prompts are those of the routines' versions.</summary>
public enum GoalChangeKind
{
    Target,
    Teaching,
}

/// <summary>What may be noted as a change of a goal, and how a change of its target is said.</summary>
public static class GoalChanges
{
    /// <summary>"Target 60 by 30 May 2027 instead of 50 by 30 January 2027"; null where nothing changed or nothing stood before.</summary>
    public static string? OfTarget((decimal? Level, LocalDate? Day) before, (decimal? Level, LocalDate? Day) after)
    {
        if (before == after || before.Level is not { } was)
            return null;
        return after.Level is { } now ? $"Target {Said(now, after.Day)} instead of {Said(was, before.Day)}" : $"No target any more; it was {Said(was, before.Day)}";
    }

    /// <summary>A teaching change is written, and lies neither before the goal begins nor in the time to come.</summary>
    public static IEnumerable<Problem> Check(LocalDate? day, string? words, DateRange goal, LocalDate today)
    {
        if (day is not { } on || !goal.Holds(Day.Of(on)) || on > today)
            yield return new("OnDay", "Give the day from which it was taught so: within the goal's dates, today at the latest.");
        if (string.IsNullOrWhiteSpace(words))
            yield return new("Words", "Say what changed in the teaching.");
    }

    private static string Said(decimal level, LocalDate? day) =>
        level.ToString("0.####", CultureInfo.InvariantCulture) + (day is { } by ? $" by {by.ToString("d MMMM uuuu", CultureInfo.InvariantCulture)}" : "");
}
