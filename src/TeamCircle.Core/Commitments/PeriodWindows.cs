using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Which windows of a line belong to a reporting period (docs/rules.md, part 4).</summary>
internal readonly ref struct PeriodWindows
{
    private readonly ReadOnlySpan<Window> _windows;
    private readonly ReadOnlySpan<DateRange> _named;
    private readonly DateRange _period;

    public PeriodWindows(PromiseWindows windows, in Judging at, ReadOnlySpan<DateRange> named)
    {
        _windows = windows.All;
        _named = named;
        _period = at.Period;
        First = windows.FirstEndingFrom(_period.First);
        End = First;
        Open = -1;
        while (End < _windows.Length && _windows[End].Days.First <= _period.Last)
        {
            if (IsOpen(_windows[End]) && IsNamed(at.OpenAsOf))
                Open = End;
            End++;
        }
    }

    /// <summary>The first window that touches the period.</summary>
    public int First { get; }

    /// <summary>One past the last window that touches the period.</summary>
    public int End { get; }

    /// <summary>The window that is open at the period's end; -1 where there is none. There cannot be two, since windows do not overlap.</summary>
    public int Open { get; }

    /// <summary>Whether a window closes in the period, while the person asked about was named.</summary>
    public bool Closes(int window) =>
        _windows[window].IsActive && _period.Holds(_windows[window].Closes) && IsNamed(_windows[window].Closes);

    private bool IsOpen(in Window window) =>
        window.IsActive && window.Active.First <= _period.Last && window.Closes > _period.Last;

    private bool IsNamed(int day)
    {
        foreach (var range in _named)
        {
            if (range.Holds(day))
                return true;
        }
        return _named.IsEmpty;
    }
}
