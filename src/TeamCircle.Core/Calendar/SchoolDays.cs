using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>The days of a calendar as they are for lines that run in terms of certain kinds (docs/rules.md, parts 1 and 3).</summary>
/// <remarks>Running totals over the days from the first to the last term day; every count of a range is a difference of two.</remarks>
public sealed class SchoolDays
{
    /// <summary>A break between two terms of at most this many days is a published closure, not "outside the terms" (our number).</summary>
    public const int LongestBreak = 30;

    /// <summary>A year of whole weeks: the day that a day beyond the calendar is compared with.</summary>
    public const int YearOfWeeks = 364;

    private readonly SchoolCalendar _calendar;
    private readonly int _first;
    private readonly int[] _scheduled;
    private readonly int[] _instructional;
    private readonly int[] _outside;
    private readonly int[] _ordinaryInTerm;
    private readonly int[] _publishedBeyond;

    internal SchoolDays(SchoolCalendar calendar, IEnumerable<Term> ordered, ILookup<int, ClosureKind> special)
    {
        _calendar = calendar;
        DateRange[] terms = [.. ordered.Select(t => DateRange.Of(t.FirstDay, t.LastDay))];
        _first = terms.Length == 0 ? 0 : terms[0].First;
        LastTermDay = terms.Length == 0 ? Day.None : terms.Max(t => t.Last);
        var length = terms.Length == 0 ? 1 : LastTermDay - _first + 2;
        _scheduled = new int[length];
        _instructional = new int[length];
        _outside = new int[length];
        _ordinaryInTerm = new int[length];
        var places = Places(terms, length - 1);
        for (var i = 0; i < length - 1; i++)
            Add(i, places[i], special[_first + i]);
        _publishedBeyond = [.. special
            .Where(d => d.Key > LastTermDay && d.Contains(ClosureKind.Published) && CouldBeExpected(d.Key))
            .Select(d => d.Key).Order()];
    }

    private enum Place
    {
        Outside,
        ShortBreak,
        Term,
    }

    /// <summary>The first day of the first term; <see cref="Day.None"/> where there is no term.</summary>
    public int FirstTermDay => LastTermDay == Day.None ? Day.None : _first;

    /// <summary>The last day of the last term; <see cref="Day.None"/> where there is no term.</summary>
    public int LastTermDay { get; }

    /// <summary>How many days are scheduled: in a term, and an ordinary day without a published closure, or an extra day.</summary>
    public int Scheduled(DateRange range) => Between(_scheduled, range);

    /// <summary>How many days are scheduled and not closed without notice.</summary>
    public int Instructional(DateRange range) => Between(_instructional, range);

    /// <summary>How many ordinary days lie outside the terms; a break of at most <see cref="LongestBreak"/> days is not outside.</summary>
    public int OrdinaryOutside(DateRange range) =>
        LastTermDay == Day.None
            ? _calendar.Ordinary(range)
            : _calendar.Ordinary(range with { Last = Math.Min(range.Last, _first - 1) })
              + Between(_outside, range)
              + _calendar.Ordinary(range with { First = Math.Max(range.First, LastTermDay + 1) });

    /// <summary>How many days beyond the last term day are expected to be scheduled there, judged by the day 364 days earlier.</summary>
    /// <remarks>Expected, not known: an ordinary weekday, no published closure, and the day 364 days earlier (or 728, and so on:
    /// the first that is not past the last term day) in a term.</remarks>
    public int Expected(DateRange range)
    {
        var days = 0;
        var part = range with { First = Math.Max(range.First, LastTermDay + 1) };
        if (LastTermDay == Day.None || part.IsEmpty)
            return 0;
        for (var back = YearsBack(part.First); !part.IsEmpty; back += YearOfWeeks)
        {
            var known = new DateRange(part.First - back, Math.Min(part.Last - back, LastTermDay));
            days += Between(_ordinaryInTerm, known);
            part = part with { First = known.Last + back + 1 };
        }
        return days - PublishedBeyond(range);
    }

    public bool IsScheduled(int day) => Scheduled(new(day, day)) == 1;

    public bool IsInstructional(int day) => Instructional(new(day, day)) == 1;

    /// <summary>Whether a day beyond the last term day is expected to be scheduled.</summary>
    public bool IsExpected(int day) => Expected(new(day, day)) == 1;

    private Place[] Places(DateRange[] terms, int length)
    {
        var places = new Place[length];
        var last = Day.None;
        foreach (var term in terms)
        {
            if (last != Day.None && term.First - last - 1 is > 0 and <= LongestBreak)
                places.AsSpan(last + 1 - _first, term.First - last - 1).Fill(Place.ShortBreak);
            places.AsSpan(term.First - _first, term.Length).Fill(Place.Term);
            last = Math.Max(last, term.Last);
        }
        return places;
    }

    private void Add(int i, Place place, IEnumerable<ClosureKind> special)
    {
        var ordinary = _calendar.IsOrdinary(_first + i);
        bool published = false, unscheduled = false, extra = false;
        foreach (var kind in special)
        {
            published |= kind == ClosureKind.Published;
            unscheduled |= kind == ClosureKind.Unscheduled;
            extra |= kind == ClosureKind.Extra;
        }
        var scheduled = place == Place.Term && (extra || (ordinary && !published));
        _scheduled[i + 1] = _scheduled[i] + (scheduled ? 1 : 0);
        _instructional[i + 1] = _instructional[i] + (scheduled && !unscheduled ? 1 : 0);
        _outside[i + 1] = _outside[i] + (place == Place.Outside && ordinary ? 1 : 0);
        _ordinaryInTerm[i + 1] = _ordinaryInTerm[i] + (place == Place.Term && ordinary ? 1 : 0);
    }

    private int Between(int[] totals, DateRange range)
    {
        var from = Math.Max(range.First - _first, 0);
        var to = Math.Min(range.Last - _first + 1, totals.Length - 1);
        return from < to ? totals[to] - totals[from] : 0;
    }

    private int YearsBack(int day) => (day - LastTermDay + YearOfWeeks - 1) / YearOfWeeks * YearOfWeeks;

    private bool CouldBeExpected(int day)
    {
        if (LastTermDay == Day.None)
            return false;
        var known = day - YearsBack(day);
        return Between(_ordinaryInTerm, new(known, known)) == 1;
    }

    private int PublishedBeyond(DateRange range)
    {
        var days = 0;
        foreach (var day in _publishedBeyond)
            days += range.Holds(day) ? 1 : 0;
        return days;
    }
}
