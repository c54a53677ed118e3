using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Adds up one unit over the windows that close in a period (docs/rules.md, parts 6 to 8).</summary>
internal struct PeriodSums
{
    private int _owed;
    private int _notOwed;
    private int _due;
    private int _given;
    private int _planned;
    private int _lack;
    private int _lackSoFar;
    private int _dueSoFar;
    private int _undecided;
    private int _short;

    /// <param name="window">The balance of a window that closes in the period.</param>
    /// <param name="isPast">Whether it closed before the as-of day.</param>
    public void Add(in WindowBalance window, bool isPast)
    {
        _owed += window.Owed;
        _notOwed += window.NotOwed;
        _due += window.Due;
        _given += window.Given;
        _planned += window.Planned;
        _lack += window.Lack;
        _short += window.Short;
        if (!isPast)
            return;
        _dueSoFar += window.Due;
        _lackSoFar += window.Lack;
        _undecided += window.Undecided;
    }

    public readonly PeriodBalance Total(Surplus surplus)
    {
        if (surplus == Surplus.EachWindowAlone)
            return new(_owed, _notOwed, _due, _given, _lack, _lackSoFar, _dueSoFar, Math.Min(_undecided, _lackSoFar), _short);
        var lackSoFar = Math.Max(0, _dueSoFar - _given);
        return new(_owed, _notOwed, _due, _given, Math.Max(0, _due - _given), lackSoFar, _dueSoFar,
            Math.Min(_undecided, lackSoFar), Math.Max(0, _due - _given - _planned));
    }
}
