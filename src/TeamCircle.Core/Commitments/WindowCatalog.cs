using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Makes the windows of promises (docs/rules.md, part 2) and keeps them, since many lines have the same shape.</summary>
/// <remarks>One for each calendar and set of reporting periods. Not safe for use by several threads at once.</remarks>
public sealed class WindowCatalog
{
    private readonly SchoolCalendar _calendar;
    private readonly DateRange[] _periods;
    private readonly Dictionary<Shape, PromiseWindows> _known = [];

    /// <param name="calendar">The agency's calendar.</param>
    /// <param name="periods">All reporting periods, in any order.</param>
    /// <exception cref="ArgumentException">A period is empty, or two overlap.</exception>
    public WindowCatalog(SchoolCalendar calendar, IEnumerable<DateRange> periods)
    {
        (_calendar, _periods) = (calendar, [.. periods.OrderBy(p => p.First)]);
        for (var i = 0; i < _periods.Length; i++)
        {
            if (_periods[i].IsEmpty || (i > 0 && _periods[i - 1].Last >= _periods[i].First))
                throw new ArgumentException("Reporting periods end after they start and do not overlap.", nameof(periods));
        }
    }

    private readonly record struct Shape(Every Every, DateRange Dates, LineTerms Terms, DateRange Plan);

    /// <summary>The windows of a promise.</summary>
    /// <param name="plan">The plan's dates; used by promises per plan year only.</param>
    public PromiseWindows Of(Promise promise, DateRange plan)
    {
        var usedPlan = promise.Every.Unit == EveryUnit.PlanYear ? plan : default;
        var shape = new Shape(promise.Every, promise.Dates, promise.Terms, usedPlan);
        if (!_known.TryGetValue(shape, out var windows))
            _known[shape] = windows = Make(shape);
        return windows;
    }

    private PromiseWindows Make(Shape shape)
    {
        var days = _calendar.For(shape.Terms);
        var beyond = shape.Every.Unit == EveryUnit.PlanYear && days.LastTermDay != Day.None && shape.Plan.Last > days.LastTermDay;
        var windows = Ranges(shape).Select(range => Measure(range, shape, days, beyond)).ToArray();
        var weekDays = shape.Every.Unit == EveryUnit.Week ? 7 * shape.Every.Count : 0;
        return new(days, shape.Dates, beyond, weekDays, windows, _periods);
    }

    private IEnumerable<DateRange> Ranges(Shape shape) => shape.Every.Unit switch
    {
        EveryUnit.Week => Weeks(shape.Every.Count, shape.Dates),
        EveryUnit.Month => Months(shape.Every.Count, shape.Dates),
        EveryUnit.Period => _periods.Where(p => p.Touches(shape.Dates)),
        _ => shape.Plan.Touches(shape.Dates) ? [shape.Plan] : [],
    };

    private IEnumerable<DateRange> Weeks(int count, DateRange line)
    {
        for (var first = _calendar.StartOfWeek(line.First); first <= line.Last; first += 7 * count)
            yield return new(first, first + 7 * count - 1);
    }

    private static IEnumerable<DateRange> Months(int count, DateRange line)
    {
        var last = line.End;
        for (var first = line.Start.With(DateAdjusters.StartOfMonth); first <= last; first = first.PlusMonths(count))
            yield return DateRange.Of(first, first.PlusMonths(count).PlusDays(-1));
    }

    private Window Measure(DateRange range, Shape shape, SchoolDays days, bool beyond)
    {
        var expected = beyond ? days.Expected(range) : 0;
        var scheduled = days.Scheduled(range) + expected;
        var within = range.And(shape.Dates);
        var active = days.Scheduled(within) + (beyond ? days.Expected(within) : 0);
        var outside = shape.Every.Unit is EveryUnit.Week or EveryUnit.Month ? days.OrdinaryOutside(range) : 0;
        var span = active == 0 ? new DateRange(range.First, range.First - 1) : Ends(within, days, beyond);
        return new(range, span, scheduled, active, scheduled + outside, _calendar.Ordinary(range), expected);
    }

    /// <summary>From the first to the last scheduled day of a range that has one.</summary>
    private static DateRange Ends(DateRange within, SchoolDays days, bool beyond)
    {
        bool Counts(int day) => days.IsScheduled(day) || (beyond && days.IsExpected(day));
        var (first, last) = (within.First, within.Last);
        while (!Counts(first))
            first++;
        while (!Counts(last))
            last--;
        return new(first, last);
    }
}
