using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>What a whole agency's audit of one period has to read: a range of days for most lines, and all rows of the others.</summary>
/// <remarks>
/// A line is <em>wide</em>, and all its rows are read, where days near the period are not enough: its windows are long (a
/// plan year), something of it counts nowhere, or a make-up ties a window that the period needs to one that it does not, so
/// that what the make-up leaves can only be known from that other window too. Where minutes in any number of visits are promised
/// for a plan year, sums of the rest of it are enough, and such a line is <em>summed</em>. Two threads may ask and
/// tell at once.
/// </remarks>
internal sealed class PeriodReach
{
    // Weeks and months reach at most this far beyond a period; longer windows make a line wide.
    private const int Beyond = 62;

    private readonly CommitmentLine[] _lines;
    private readonly (int First, int Last)[] _needed;
    private readonly bool[] _wide;
    private readonly bool[] _summed;
    private readonly HashSet<(int Line, int Day)> _makeUps = [];
    private readonly Dictionary<(int Line, int Window), int> _debts = [];

    public PeriodReach(CommitmentLine[] lines, DateRange period)
    {
        (_lines, _needed, _wide, _summed) = (lines, new (int, int)[lines.Length], new bool[lines.Length], new bool[lines.Length]);
        Days = period;
        for (var i = 0; i < lines.Length; i++)
            Reach(i, period);
    }

    /// <summary>The days of which all rows are read.</summary>
    public DateRange Days { get; private set; }

    public bool IsWide(int line) => _wide[line];

    public bool IsSummed(int line) => _summed[line] && !_wide[line];

    public void Widen(int line) => _wide[line] = true;

    /// <summary>Notes what a sealed window brought forward: what make-ups pay of it depends on no other row of that window.</summary>
    public void BringForward(int line, in Debt debt)
    {
        if (!debt.IsFromFile)
            _debts[(line, _lines[line].Windows.Find(debt.Day))] = debt.Since;
    }

    /// <summary>Whether a make-up has to be kept; makes its line wide where it ties what is needed to what is not.</summary>
    public bool Keeps(int line, in Entry makeUp)
    {
        var windows = _lines[line].Windows;
        var (named, own) = (windows.Find(makeUp.Pays), windows.FindOwn(makeUp.Day));
        if (named < 0 || named == own)
            return true;
        // The order of two on one day is that of their starts, which only the reading of all rows knows.
        if (_debts.TryGetValue((line, named), out var since) && makeUp.Day > since)
        {
            if (IsSecond(line, makeUp.Day))
                Widen(line);
            return true;
        }
        if (own < 0 || (IsNeeded(line, own) && !IsNeeded(line, named)) || IsSecond(line, makeUp.Day))
            Widen(line);
        return IsNeeded(line, named);
    }

    /// <summary>Whether a make-up of the line on this day was there before.</summary>
    private bool IsSecond(int line, int day)
    {
        lock (_makeUps)
            return !_makeUps.Add((line, day));
    }

    private static bool CanBeSummed(CommitmentLine line) =>
        line.Promise.Every.Unit == EveryUnit.PlanYear && !line.IsProbes && !line.Promise.HasSessions
        && line.Windows.All is [{ IsActive: true } year] && year.Days.And(line.Promise.Dates) == line.Promise.Dates;

    private bool IsNeeded(int line, int window) => window >= _needed[line].First && window <= _needed[line].Last;

    private void Reach(int index, DateRange period)
    {
        var line = _lines[index];
        var windows = line.Windows.All;
        var first = line.Windows.FirstEndingFrom(period.First);
        var last = first - 1;
        while (last + 1 < windows.Length && windows[last + 1].Days.First <= period.Last)
            last++;
        _needed[index] = (first, last);
        // In a line of summer terms alone almost no day is a school day, and a part of a goal has other dates than the goal:
        // for both no query tells which of their rows count nowhere.
        _wide[index] = line.Promise.Terms == LineTerms.Extended || line.IsPartOfGoal;
        if (last < first)
            return;
        var days = new DateRange(windows[first].Days.First, windows[last].Days.Last);
        if (days.First < period.First - Beyond || days.Last > period.Last + Beyond)
        {
            _summed[index] = CanBeSummed(line);
            _wide[index] |= !_summed[index];
        }
        else
            Days = new(Math.Min(Days.First, days.First), Math.Max(Days.Last, days.Last));
    }
}
