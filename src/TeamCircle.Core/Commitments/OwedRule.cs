using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>What a window owes (docs/rules.md, part 3): the promise spread over its days, in one sum rounded once.</summary>
internal static class OwedRule
{
    /// <summary>The rule for short windows that holds: none (in full) for a period and a plan year, else the line's or the policy's.</summary>
    public static ShortWindow RuleFor(Promise promise, Policy policy) =>
        promise.Every.Unit is EveryUnit.Period or EveryUnit.PlanYear ? ShortWindow.InFull : promise.ShortWindow ?? policy.ShortWindow;

    /// <summary>The days over which one whole promise is spread under a rule; 0 where the rule makes the window owe nothing.</summary>
    /// <remarks>min(1, base / ordinary) / base is 1 / max(base, ordinary).</remarks>
    public static int Divisor(in Window window, ShortWindow rule) => rule switch
    {
        ShortWindow.Prorated => Math.Max(window.Base, window.OrdinaryDays),
        ShortWindow.AtLeastHalf when 2 * window.Base < window.OrdinaryDays => 0,
        _ => window.Base,
    };

    /// <summary>Opens the tally of a window: what it owes, and the length of a session in it.</summary>
    public static void Open(ref WindowTally tally, Promise promise, PromiseWindows windows, int index, Policy policy)
    {
        ref readonly var window = ref windows.All[index];
        tally.Share = policy.SessionShare;
        if (promise.Wording is not null)
            return;
        var divisor = Divisor(window, RuleFor(promise, policy));
        var (minutes, sessions) = Spread(promise, windows, index, window.Active.Last);
        tally.Minutes.Owed = divisor == 0 ? 0 : Rounded(minutes, divisor);
        if (!promise.HasSessions)
            return;
        tally.Sessions.Owed = divisor == 0 ? 0 : Rounded(sessions, divisor);
        var version = promise.On(window.Closes);
        (tally.LengthOver, tally.LengthUnder) = tally.Sessions.Owed > 0
            ? (tally.Minutes.Owed, tally.Sessions.Owed)
            : (version.Quantity, version.Sessions);
    }

    /// <summary>What a window owes over its active days up to a day, before rounding.</summary>
    public static Ratio WholeUpTo(Promise promise, PromiseWindows windows, int index, int upTo, Policy policy)
    {
        var divisor = Divisor(windows.All[index], RuleFor(promise, policy));
        return divisor == 0 || promise.Wording is not null
            ? Ratio.Zero
            : new(Spread(promise, windows, index, upTo).Minutes, divisor);
    }

    /// <summary>Sums of quantity and sessions over the active days up to a day, each day with the version in force on it.</summary>
    private static (long Minutes, long Sessions) Spread(Promise promise, PromiseWindows windows, int index, int upTo)
    {
        ref readonly var window = ref windows.All[index];
        var versions = promise.Versions;
        if (versions.Length == 1)
        {
            var days = upTo >= window.Active.Last ? window.ActiveDays : windows.ActiveDays(index, new(window.Active.First, upTo));
            return ((long)versions[0].Quantity * days, (long)versions[0].Sessions * days);
        }
        long minutes = 0, sessions = 0;
        for (var i = 0; i < versions.Length; i++)
        {
            var inForce = promise.InForce(i);
            if (!inForce.Touches(window.Active))
                continue;
            var days = windows.ActiveDays(index, inForce with { Last = Math.Min(inForce.Last, upTo) });
            minutes += (long)versions[i].Quantity * days;
            sessions += (long)versions[i].Sessions * days;
        }
        return (minutes, sessions);
    }

    private static int Rounded(long over, int under) => (int)((2 * over + under) / (2L * under));
}
