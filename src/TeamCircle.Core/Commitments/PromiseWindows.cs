using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>All windows that touch a line's dates, oldest first (docs/rules.md, parts 2 and 3).</summary>
/// <remarks>Immutable. Lines of the same shape share one; <see cref="WindowCatalog"/> keeps them.</remarks>
public sealed class PromiseWindows
{
    private readonly Window[] _windows;
    private readonly int _weekDays;

    internal PromiseWindows(SchoolDays days, DateRange line, bool yearBeyondCalendar, int weekDays, Window[] windows, DateRange[] periods)
    {
        (SchoolDays, Line, YearBeyondCalendar, _weekDays, _windows) = (days, line, yearBeyondCalendar, weekDays, windows);
        ClosingInNoPeriod = [.. Enumerable.Range(0, windows.Length)
            .Where(i => windows[i].IsActive && !Array.Exists(periods, p => p.Holds(windows[i].Closes)))];
    }

    /// <summary>Oldest first; they do not overlap.</summary>
    public ReadOnlySpan<Window> All => _windows;

    /// <summary>The line's dates.</summary>
    public DateRange Line { get; }

    /// <summary>The school days as they are for this line.</summary>
    public SchoolDays SchoolDays { get; }

    /// <summary>Whether a part of the plan year lies beyond the calendar, so that its days are expected, not known.</summary>
    public bool YearBeyondCalendar { get; }

    /// <summary>Indexes of windows that owe something and close in no reporting period: to check.</summary>
    public IReadOnlyList<int> ClosingInNoPeriod { get; }

    /// <summary>The index of the window with an active day that holds this day; -1 where there is none.</summary>
    public int Find(int day)
    {
        var found = IndexOf(day);
        return found >= 0 && _windows[found].IsActive ? found : -1;
    }

    /// <summary>The index of the window in which a session given on this day counts; -1 outside the line's dates too.</summary>
    public int FindOwn(int day) => Line.Holds(day) ? Find(day) : -1;

    /// <summary>The index of the first window whose last day is this day or later; the number of windows where there is none.</summary>
    public int FirstEndingFrom(int day)
    {
        int low = 0, high = _windows.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_windows[middle].Days.Last < day)
                low = middle + 1;
            else
                high = middle;
        }
        return low;
    }

    /// <summary>How many active days of a window lie in a range.</summary>
    public int ActiveDays(int window, DateRange range)
    {
        var part = _windows[window].Active.And(range);
        return SchoolDays.Scheduled(part) + (YearBeyondCalendar ? SchoolDays.Expected(part) : 0);
    }

    private int IndexOf(int day)
    {
        if (_windows.Length == 0 || day < _windows[0].Days.First || day > _windows[^1].Days.Last)
            return -1;
        if (_weekDays > 0)
            return (day - _windows[0].Days.First) / _weekDays;
        var found = FirstEndingFrom(day);
        return _windows[found].Days.Holds(day) ? found : -1;
    }
}
