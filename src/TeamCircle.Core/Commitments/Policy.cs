namespace TeamCircle.Core.Commitments;

/// <summary>What a window with fewer school days than usual owes (docs/rules.md, part 3).</summary>
public enum ShortWindow
{
    InFull,
    Prorated,
    AtLeastHalf,
}

/// <summary>Whether minutes beyond what is due in one window may stand for another (docs/rules.md, part 7).</summary>
public enum Surplus
{
    EachWindowAlone,
    CarryWithinPeriod,
}

/// <summary>What people decided about minutes, sessions or probes that were not given.</summary>
public enum DecisionKind
{
    NotOwed,
    MakeUp,
    Meeting,
}

/// <summary>The agency's written policy for counting.</summary>
/// <param name="TolerancePercent">Whole percent of what is due, 0 to 100; used only after the period, and never called met.</param>
/// <param name="SessionShare">Whole percent of a session's length from which a visit counts as one session, 1 to 100.</param>
public sealed record Policy(ShortWindow ShortWindow, Surplus Surplus, int TolerancePercent, int SessionShare)
{
    public static Policy Default { get; } = new(ShortWindow.InFull, Surplus.EachWindowAlone, 0, 100);
}
