using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Minutes of one learner's own time that are taken on each day of a range, over all of the learner's lines.</summary>
/// <remarks>Reusable: one serves a whole audit, learner after learner.</remarks>
public sealed class BusyDays
{
    private DateRange _range = new(0, -1);
    private int[] _minutes = [];

    /// <summary>Forgets everything and covers a range; days outside it are not remembered and count as free.</summary>
    public void Clear(DateRange range)
    {
        _range = range;
        if (_minutes.Length < range.Length)
            _minutes = new int[range.Length];
        _minutes.AsSpan(0, range.Length).Clear();
    }

    public void Add(int day, int minutes)
    {
        if (_range.Holds(day))
            _minutes[day - _range.First] += minutes;
    }

    /// <summary>Adds a line of the learner's own time: what was given up to the as-of day, and what is planned from it on.</summary>
    public void AddLine(ReadOnlySpan<Entry> given, ReadOnlySpan<Entry> planned, int asOf)
    {
        foreach (ref readonly var entry in given)
        {
            if (entry.Day <= asOf)
                Add(entry.Day, entry.Amount);
        }
        foreach (ref readonly var entry in planned)
        {
            if (entry.Day >= asOf)
                Add(entry.Day, entry.Amount);
        }
    }

    /// <summary>Minutes taken on a day.</summary>
    public int On(int day) => _range.Holds(day) ? _minutes[day - _range.First] : 0;
}
