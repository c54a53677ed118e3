using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>One visit, given or planned, as the ledger counts it (docs/rules.md, part 5).</summary>
/// <param name="Day">The day on which it was or will be given.</param>
/// <param name="Amount">Minutes that count, or 1 for a probe; 0 for a visit that was offered and not taken up.</param>
/// <param name="Pays">For a make-up a day of the window that it pays, otherwise <see cref="Time.Day.None"/>.</param>
public readonly record struct Entry(int Day, int Amount, int Pays = Time.Day.None);

/// <summary>What people decided about something not given in one window (docs/rules.md, part 6).</summary>
/// <param name="Day">A day of the window; it names the window and, for pace, the day from which the decision counts.</param>
/// <param name="Amount">Minutes, or probes.</param>
/// <param name="Sessions">Sessions, or <see cref="ByLength"/>.</param>
public readonly record struct Decision(int Day, int Amount, int Sessions, DecisionKind Kind)
{
    /// <summary>As many sessions as the minutes divided by the length of a session, rounded up.</summary>
    public const int ByLength = -1;
}
