using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>Days between two reporting periods on which there is school: a window that closes there is judged in no period.</summary>
/// <param name="SchoolDays">Scheduled days of any term in it; one or more.</param>
public sealed record PeriodGap(LocalDate FirstDay, LocalDate LastDay, int SchoolDays);

/// <summary>Finds the gaps that a person should know of.</summary>
public static class PeriodGaps
{
    /// <param name="periods">In any order; they do not overlap.</param>
    public static IReadOnlyList<PeriodGap> Find(SchoolCalendar calendar, IEnumerable<DateRange> periods)
    {
        var days = calendar.For(LineTerms.Both);
        var ordered = periods.OrderBy(p => p.First).ToList();
        return
        [
            .. ordered.Zip(ordered.Skip(1))
                .Select(pair => new DateRange(pair.First.Last + 1, pair.Second.First - 1))
                .Where(gap => !gap.IsEmpty && days.Scheduled(gap) > 0)
                .Select(gap => new PeriodGap(gap.Start, gap.End, days.Scheduled(gap))),
        ];
    }
}
