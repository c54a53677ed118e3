using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Progress;

/// <summary>A stretch without teaching: closures, the gap between two terms, the learner away.</summary>
/// <param name="From">The first school day lost.</param>
/// <param name="Until">The last school day lost.</param>
/// <param name="Days">How many ordinary school days were lost.</param>
public sealed record SchoolBreak(LocalDate From, LocalDate Until, int Days);

/// <summary>What a break cost, by the days with counted data before and after it.</summary>
/// <param name="Before">The level of the last such day before it; null where there is none, with what follows from it.</param>
/// <param name="After">The level of the first such day after it; null where there is none yet.</param>
/// <param name="Lost">How much worse the level after is, 0 where it is not worse; in the unit of the measure.</param>
/// <param name="RegainedOn">The first day after the break with a level at or past the one before.</param>
/// <param name="DaysToRegain">Calendar days from the break's last day until then; null while it is not regained.</param>
public sealed record BreakCost(SchoolBreak Break, DayLevel? Before, DayLevel? After, decimal? Lost, LocalDate? RegainedOn, int? DaysToRegain);

/// <summary>The mean of a day's counted values, over <paramref name="Points"/> points.</summary>
public sealed record DayLevel(LocalDate Day, decimal Level, int Points);

/// <summary>Breaks of five or more ordinary school days, and what each cost (docs/rules.md, part 13).</summary>
public static class Breaks
{
    /// <summary>Fewer lost days in a row make no break.</summary>
    public const int FewestDays = 5;

    /// <summary>Breaks within a range, oldest first; one that the range cuts counts its days in it.</summary>
    /// <param name="away">When the learner could not be taught.</param>
    /// <remarks>Regular terms count. Before the first term and after the last the calendar knows nothing, so that no break lies there.</remarks>
    public static IReadOnlyList<SchoolBreak> Of(SchoolCalendar calendar, IReadOnlyCollection<DateRange> away, DateRange within)
    {
        var school = calendar.For(LineTerms.Regular);
        var known = within.And(new(school.FirstTermDay, school.LastTermDay));
        var (breaks, lost) = (new List<SchoolBreak>(), new List<int>());
        for (var day = known.First; day <= known.Last; day++)
        {
            var isAway = away.Any(a => a.Holds(day));
            if (school.IsInstructional(day) && !isAway)
                End();
            else if (calendar.IsOrdinary(day))
                lost.Add(day);
        }
        End();
        return breaks;

        void End()
        {
            if (lost.Count >= FewestDays)
                breaks.Add(new(Day.Date(lost[0]), Day.Date(lost[^1]), lost.Count));
            lost.Clear();
        }
    }

    /// <summary>What a break cost.</summary>
    /// <param name="counted">Points of the kind that counts for the goal, in any order.</param>
    public static BreakCost Cost(SchoolBreak of, IEnumerable<GoalPoint> counted, Better better)
    {
        var days = counted.GroupBy(p => p.Day).OrderBy(g => g.Key).Select(g => new DayLevel(g.Key, g.Average(p => p.Value), g.Count())).ToList();
        var (before, since) = (days.LastOrDefault(d => d.Day < of.From), days.Where(d => d.Day > of.Until).ToList());
        if (before is null || since.Count == 0)
            return new(of, before, since.FirstOrDefault(), null, null, null);
        var sign = better == Better.Up ? 1 : -1;
        var regained = since.Find(d => sign * d.Level >= sign * before.Level)?.Day;
        return new(
            of, before, since[0], Math.Max(0, sign * (before.Level - since[0].Level)), regained,
            regained is { } day ? Period.DaysBetween(of.Until, day) : null);
    }
}
