namespace TeamCircle.Core.Progress;

/// <summary>The straight trend of a series, three ways (docs/rules.md, part 13).</summary>
/// <remarks>Slopes are in units of y per unit of x. Points may come in any order of x; each needs two different x at least.</remarks>
public sealed record Trend(TheilSen TheilSen, MannKendall MannKendall, Ols Ols)
{
    /// <param name="x">Days, weeks or session numbers.</param>
    /// <param name="y">As many values.</param>
    /// <param name="confidence">Of the Theil–Sen slope's interval, between 0 and 1.</param>
    /// <exception cref="ArgumentException">There are not as many y as x.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence does not lie between 0 and 1.</exception>
    public static Trend Of(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y, double confidence = Confidence.Usual)
    {
        if (x.Count != y.Count)
            throw new ArgumentException("A trend needs a y for each x.", nameof(y));
        return new(TheilSen.Of(x, y, confidence), MannKendall.Of(x, y), Ols.Of(x, y));
    }

    internal static Figure? Missing(IReadOnlyList<decimal> x) =>
        x.Distinct().Count() is < 2 and var have ? Figure.TooFew("different days", have, 2) : null;
}

/// <summary>The median of the slopes between all pairs of points (Theil 1950; Sen 1968, which leaves out pairs with the same x).</summary>
/// <param name="Intercept">median(y) − slope · median(x) (Conover's form).</param>
/// <param name="Low">Lower end of the slope's interval (Gilbert 1987, section 16.5): ranks from Kendall's variance of S, interpolated between
/// order statistics. Not available, at both ends, where the ranks fall outside the slopes.</param>
public sealed record TheilSen(Figure Slope, Figure Intercept, Figure Low, Figure High)
{
    /// <summary>The line without rounding; null where there is none.</summary>
    internal ExactLine? Line { get; private init; }

    internal static TheilSen Of(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y, double confidence)
    {
        var width = Confidence.Width(confidence);
        if (Trend.Missing(x) is { } missing)
            return new(missing, missing, missing, missing);
        var slopes = PairSlopes.Of(x, y);
        var line = ExactLine.Through(x, y, slopes.Median);
        var reach = width * Math.Sqrt(Kendall.VarianceOf(x, y));
        var (low, high) = ((slopes.Count - reach) / 2, ((slopes.Count + reach) / 2) + 1);
        return new(Figure.Of(line.Slope.Value), Figure.Of(line.Intercept.Value), Ranked(slopes, low), Ranked(slopes, high)) { Line = line };
    }

    private static Figure Ranked(PairSlopes slopes, double rank)
    {
        if (rank < 1 || rank > slopes.Count)
            return Figure.None("not available: too few points for this confidence");
        var below = (int)Math.Floor(rank);
        var (from, part) = (slopes[below - 1], rank - below);
        return Figure.Of(part > 0 ? from + (part * (slopes[below] - from)) : from);
    }
}

/// <summary>A line without rounding.</summary>
internal sealed record ExactLine(Fraction Slope, Fraction Intercept)
{
    public Fraction At(decimal x) => Intercept.Plus(Slope.Times(Fraction.Of(x)));

    public static ExactLine Through(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y, Fraction slope) =>
        new(slope, MedianOf(y).Minus(slope.Times(MedianOf(x))));

    public static Fraction MedianOf(IEnumerable<decimal> values) => Fraction.MedianOf([.. values.Order().Select(Fraction.Of)]);
}

/// <summary>Whether a series rises or falls more than its order by chance would (Mann 1945; Kendall 1970).</summary>
/// <param name="S">Rises less falls, over all pairs.</param>
/// <param name="Variance">Of S where the order is chance, corrected for ties.</param>
/// <param name="Z">S, one nearer to 0, over the root of its variance; 0 for a constant series.</param>
/// <param name="P">Two-sided, by the normal distribution; 1 for a constant series.</param>
/// <param name="TauB">Kendall's tau-b; none for a constant series.</param>
public sealed record MannKendall(int S, double Variance, Figure Z, Figure P, Figure TauB)
{
    internal static MannKendall Of(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y)
    {
        var pairs = Kendall.Of(x, y);
        var variance = Kendall.VarianceOf(x, y);
        if (Trend.Missing(x) is { } missing)
            return new(pairs.S, variance, missing, missing, missing);
        var z = variance > 0 ? (pairs.S - Math.Sign(pairs.S)) / Math.Sqrt(variance) : 0;
        return new(pairs.S, variance, Figure.Of(z), Figure.Of(Confidence.TwoSided(z)), pairs.TauB);
    }
}

/// <summary>Ordinary least squares, beside the trend that outliers do not move.</summary>
/// <param name="RSquared">The share of the variance of y that the line explains; none for a constant series.</param>
/// <param name="SlopeSe">Standard error of the slope; none for fewer than three points.</param>
public sealed record Ols(Figure Slope, Figure Intercept, Figure RSquared, Figure SlopeSe)
{
    internal static Ols Of(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y)
    {
        if (Trend.Missing(x) is { } missing)
            return new(missing, missing, missing, missing);
        double[] days = [.. x.Select(v => (double)v)], values = [.. y.Select(v => (double)v)];
        var (meanX, meanY) = (days.Average(), values.Average());
        var sumX = days.Sum(v => (v - meanX) * (v - meanX));
        var slope = days.Zip(values, (v, w) => (v - meanX) * (w - meanY)).Sum() / sumX;
        var left = days.Zip(values, (v, w) => Square(w - meanY - (slope * (v - meanX)))).Sum();
        var all = values.Sum(w => Square(w - meanY));
        return new(
            Figure.Of(slope), Figure.Of(meanY - (slope * meanX)),
            y.Distinct().Count() > 1 ? Figure.Of(1 - (left / all)) : Figure.None("every value is the same"),
            x.Count > 2 ? Figure.Of(Math.Sqrt(left / (x.Count - 2) / sumX)) : Figure.TooFew("points", x.Count, 3));
    }

    private static double Square(double value) => value * value;
}
