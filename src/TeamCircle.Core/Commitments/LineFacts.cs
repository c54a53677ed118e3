using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Everything the ledger needs to know about one line or probe commitment.</summary>
/// <remarks>
/// <para>All entries of the line are always enough. For one period less is enough: the entries dated in, and the make-ups that
/// name a day of, the windows that close in the period or are open at its end, and the entries that count nowhere. But a
/// make-up pays only what its window still lacks: where a make-up in the reading names a window outside it, or one from
/// outside names a window in it, hand in all entries of that line.</para>
/// <para>Order does not matter, but for make-ups of one day, which are worked as listed.</para>
/// </remarks>
public readonly ref struct LineFacts
{
    public required Promise Promise { get; init; }

    /// <summary>The promise's windows, from a <see cref="WindowCatalog"/> of the agency's calendar and periods.</summary>
    public required PromiseWindows Windows { get; init; }

    /// <summary>Visits given, also those that were offered and not taken up (amount 0). Those dated after the as-of day are left out.</summary>
    public ReadOnlySpan<Entry> Given { get; init; }

    /// <summary>Visits not logged. Those dated before the as-of day are listed to check and count for nothing.</summary>
    public ReadOnlySpan<Entry> Planned { get; init; }

    public ReadOnlySpan<Decision> Decisions { get; init; }

    /// <summary>What was brought forward from sealed periods; none of two names the same day or window.</summary>
    public ReadOnlySpan<Debt> Debts { get; init; }

    /// <summary>The learner's most minutes a day (1 for probes), or null where the learner's own time is not used.</summary>
    public int? DailyLimit { get; init; }

    /// <summary>What is taken of the learner's days, this line included; null where nothing is. Used with <see cref="DailyLimit"/> only.</summary>
    public BusyDays? Busy { get; init; }
}

/// <summary>What is asked of the ledger: one reporting period as of one day, under the agency's policies.</summary>
/// <param name="Period">The reporting period that is judged.</param>
/// <param name="AsOf">The as-of day: what is dated after it is left out.</param>
/// <param name="Policies">The agency's policies over time.</param>
public readonly record struct Judging(DateRange Period, int AsOf, Policies Policies)
{
    /// <summary>The last day whose visits count for windows that are open at the end of the period.</summary>
    public int OpenAsOf => Math.Min(Period.Last, AsOf);

    /// <summary>The last day up to which an open window should have kept pace.</summary>
    public int PaceUpTo => Math.Min(Period.Last, AsOf - 1);
}
