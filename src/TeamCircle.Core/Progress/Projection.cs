using System.Numerics;

namespace TeamCircle.Core.Progress;

/// <summary>The day on which the Theil–Sen line meets the target: the first whole day on or after the crossing, before or after today.</summary>
/// <param name="Day">Null where there is none.</param>
/// <param name="Why">Why there is none.</param>
/// <param name="Earliest">The day for the steepest slope of the interval, through the median point; null where the interval or that day is not available.</param>
/// <param name="Latest">The day for the flattest; null also where the flattest never gets there, which the interval then leaves open.</param>
public sealed record Projection(int? Day, string? Why, int? Earliest, int? Latest)
{
    public const int Fewest = 3;

    private static readonly BigInteger Last = DateOnly.MaxValue.DayNumber;

    /// <param name="points">In any order.</param>
    /// <param name="confidence">Of the slope's interval, between 0 and 1.</param>
    public static Projection Of(IReadOnlyList<DayValue> points, decimal target, Better better, double confidence = Confidence.Usual) =>
        Of(points, TheilSen.Of([.. points.Select(p => (decimal)p.Day)], [.. points.Select(p => p.Value)], confidence), target, better);

    /// <param name="trend">Over the same points, by day.</param>
    internal static Projection Of(IReadOnlyList<DayValue> points, TheilSen trend, decimal target, Better better)
    {
        if (points.Count < Fewest)
            return None(Figure.TooFew("points", points.Count, Fewest).Why!);
        decimal[] days = [.. points.Select(p => (decimal)p.Day)], values = [.. points.Select(p => p.Value)];
        if (trend.Line is not { } line)
            return None(trend.Slope.Why!);
        if (line.Slope.Sign != (better == Better.Up ? 1 : -1))
            return None(line.Slope.Sign == 0 ? "the trend is level" : "the trend leads away from the target");
        if (Crossing(line, target) is not { } day)
            return None("the trend is too flat to meet the target within any calendar");
        var (steep, flat) = better == Better.Up ? (trend.High, trend.Low) : (trend.Low, trend.High);
        int? one = EndOf(steep, line, days, values, target), other = EndOf(flat, line, days, values, target);
        return other < one ? new(day, null, other, one) : new(day, null, one, other); // behind the median point the steeper line is the later one
    }

    private static Projection None(string why) => new(null, why, null, null);

    /// <summary>An end that is the slope itself, but for rounding, crosses on its day: a whole day would otherwise be passed by a hair.</summary>
    private static int? EndOf(Figure slope, ExactLine line, decimal[] days, decimal[] values, decimal target)
    {
        if (slope.Value is not { } end || Math.Sign(end) != line.Slope.Sign || Math.Abs(end) is not (> 1e-20 and < 1e20))
            return null;
        var isItself = Math.Abs(end - line.Slope.Value) <= 1e-12 * Math.Abs(end);
        return Crossing(isItself ? line : ExactLine.Through(days, values, Fraction.Of((decimal)end)), target);
    }

    private static int? Crossing(ExactLine line, decimal target)
    {
        var day = Fraction.Of(target).Minus(line.Intercept).Over(line.Slope).RoundedUp;
        return day >= 0 && day <= Last ? (int)day : null;
    }
}
