namespace TeamCircle.Core.Time;

/// <summary>The kind of window a promise is counted in (docs/rules.md, part 2).</summary>
public enum EveryUnit
{
    Week,
    Month,
    Period,
    PlanYear,
}

/// <summary>How often a promise renews: every <paramref name="Count"/> weeks or months, each reporting period, or each plan year.</summary>
/// <param name="Unit">The kind of window.</param>
/// <param name="Count">One or more; one for a period and a plan year.</param>
public readonly record struct Every(EveryUnit Unit, int Count);
