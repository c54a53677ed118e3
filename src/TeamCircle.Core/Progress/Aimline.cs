namespace TeamCircle.Core.Progress;

/// <summary>One value on one day, in the unit of the goal's measure.</summary>
public readonly record struct DayValue(int Day, decimal Value);

/// <summary>The straight line from where a learner stood to the target. Days are day numbers, and count as calendar days.</summary>
public sealed record Aimline
{
    /// <param name="baselineDay">The last day before teaching.</param>
    /// <param name="baseline">The median before teaching, or the plan's present level.</param>
    /// <param name="targetDay">After <paramref name="baselineDay"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The target's day is not after the baseline's.</exception>
    public Aimline(int baselineDay, decimal baseline, int targetDay, decimal target, Better better)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(targetDay, baselineDay);
        (BaselineDay, Baseline, TargetDay, Target, Better) = (baselineDay, baseline, targetDay, target, better);
        var slope = Fraction.Of(target).Minus(Fraction.Of(baseline)).Over(Fraction.Of(targetDay - baselineDay));
        Line = new(slope, Fraction.Of(baseline).Minus(slope.Times(Fraction.Of(baselineDay))));
    }

    public int BaselineDay { get; }
    public decimal Baseline { get; }
    public int TargetDay { get; }
    public decimal Target { get; }
    public Better Better { get; }

    public double PerDay => Line.Slope.Value;

    public double PerWeek => Line.Slope.Times(Fraction.Of(7)).Value;

    internal ExactLine Line { get; }

    /// <summary>The line's value on a day, also before its first and after its last day.</summary>
    public double At(int day) => Line.At(day).Value;

    /// <summary>1 on the better side of the line, -1 on the worse side, 0 on the line itself, without rounding.</summary>
    public int SideOf(DayValue point) => (Better == Better.Up ? 1 : -1) * Fraction.Of(point.Value).CompareTo(Line.At(point.Day));
}
