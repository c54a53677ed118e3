using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Working space of the ledger, used again from line to line, so that judging a line allocates nothing.</summary>
/// <remarks>Holds no results. One for each thread.</remarks>
public sealed class LedgerDesk
{
    private WindowTally[] _tallies = [];
    private long[] _makeUps = [];
    private int _round;
    private int _makeUpCount;
    private DebtTally[] _debts = [];

    /// <summary>Clears the desk for the windows, entries and debts of one line.</summary>
    internal void Clear(int windows, int entries, int debts)
    {
        if (_debts.Length < debts)
            _debts = new DebtTally[debts * 2];
        Array.Clear(_debts, 0, debts);
        if (_tallies.Length < windows)
            _tallies = new WindowTally[windows * 2];
        if (_makeUps.Length < entries)
            _makeUps = new long[entries * 2];
        if (++_round == int.MaxValue)
        {
            Array.Clear(_tallies);
            _round = 1;
        }
        _makeUpCount = 0;
    }

    /// <summary>The tally of a window; a fresh one has everything at zero and <paramref name="fresh"/> set.</summary>
    internal ref WindowTally Tally(int window, out bool fresh)
    {
        ref var tally = ref _tallies[window];
        fresh = tally.Round != _round;
        if (fresh)
            tally = new WindowTally { Round = _round };
        return ref tally;
    }

    /// <summary>What make-ups paid, and planned ones would pay, of a debt.</summary>
    internal ref DebtTally Debt(int index) => ref _debts[index];

    /// <summary>Whether anything was tallied for a window of this line.</summary>
    internal bool IsTouched(int window) => _tallies[window].Round == _round;

    /// <summary>Puts a make-up aside until all ordinary entries are worked.</summary>
    internal void SetAside(int day, int index) => _makeUps[_makeUpCount++] = ((long)day << 32) | (uint)index;

    /// <summary>Indexes of the make-ups put aside (in the low 32 bits), by date and then as listed; puts none aside any more.</summary>
    internal ReadOnlySpan<long> TakeMakeUps()
    {
        var taken = _makeUps.AsSpan(0, _makeUpCount);
        _makeUpCount = 0;
        taken.Sort();
        return taken;
    }
}

/// <summary>What the ledger keeps for one debt while it works.</summary>
internal struct DebtTally
{
    public DebtAmount Paid;
    public DebtAmount Planned;

    public readonly DebtAmount Left(in Debt debt) => debt.Most.Less(Paid).Less(Planned);

    public void Pay(DebtAmount amount, bool planned)
    {
        if (planned)
            Planned = Planned.Plus(amount);
        else
            Paid = Paid.Plus(amount);
    }
}

/// <summary>What the ledger keeps for one window while it works.</summary>
internal struct WindowTally
{
    public int Round;
    public WindowBalance Minutes;
    public WindowBalance Sessions;

    /// <summary>The length of a session here; no length where <see cref="LengthUnder"/> is 0.</summary>
    public int LengthOver;
    public int LengthUnder;

    /// <summary>Whole percent of the length from which a visit counts as a session.</summary>
    public int Share;

    /// <summary>Minutes decided not owed on days up to which pace is taken.</summary>
    public int DecidedForPace;

    public readonly bool HasLength => LengthUnder > 0;

    public readonly Ratio Length => HasLength ? new(LengthOver, LengthUnder) : Ratio.Zero;

    /// <summary>Whether a visit of these minutes is long enough to count as a session of this window.</summary>
    public readonly bool IsSession(int minutes) =>
        HasLength && minutes > 0 && (long)minutes * 100 * LengthUnder >= (long)Share * LengthOver;
}
