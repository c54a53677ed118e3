namespace TeamCircle.Core.Progress;

/// <summary>How far data during teaching lie past data before teaching: effects for the record (docs/rules.md, part 13).</summary>
/// <remarks>
/// <para>Values are in the order of the sessions. All but the slope and the log response ratio are turned so that more is better, whichever
/// direction that is. Each needs <see cref="Fewest"/> points before and during teaching; fewer give no value, and say so.</para>
/// <para>They describe these points. Points of one learner are not independent, so that standard errors and intervals are too narrow rather
/// than too wide.</para>
/// </remarks>
/// <param name="Tau">S/(m·n): pairs that improve less pairs that worsen, of all pairs (Parker, Vannest, Davis and Sauber 2011).</param>
/// <param name="TauU">The same less the baseline's own pairs, over m·n (same paper). It may pass 1.</param>
/// <param name="Pnd">Share of points during teaching that are better than the best one before it (Scruggs, Mastropieri and Casto 1987).</param>
/// <param name="Pem">Share of points during teaching past the median before it; one on the median counts half (Ma 2006).</param>
/// <param name="Ird">Improvement rate difference (Parker, Vannest and Brown 2009), robust: the fewest points whose removal leaves no overlap,
/// taken in halves from both phases.</param>
public sealed record Overlap(
    Nap Nap, Figure Tau, Figure TauU, BaselineCorrectedTau BaselineCorrectedTau, Figure Pnd, Figure Pem, Figure Ird, LogResponseRatio LogResponseRatio)
{
    public const int Fewest = 3;

    /// <exception cref="ArgumentOutOfRangeException">The confidence does not lie between 0 and 1.</exception>
    public static Overlap Of(IReadOnlyList<decimal> baseline, IReadOnlyList<decimal> teaching, Better better, double confidence = Confidence.Usual)
    {
        var width = Confidence.Width(confidence);
        var short1 = baseline.Count < Fewest ? baseline.Count : teaching.Count;
        if (short1 < Fewest)
            return None(Figure.TooFew("points", short1, Fewest));
        var sign = better == Better.Up ? 1 : -1;
        var pairs = new PhasePairs([.. baseline.Select(v => sign * v)], [.. teaching.Select(v => sign * v)]);
        return new(
            pairs.Nap(width), Figure.Of(pairs.Tau), Figure.Of(pairs.TauU), BaselineCorrectedTau.Of(baseline, teaching, sign),
            Figure.Of(pairs.Pnd), Figure.Of(pairs.Pem), Figure.Of(pairs.Ird), LogResponseRatio.Of(baseline, teaching));
    }

    private static Overlap None(Figure why) =>
        new(new(why, why, why, why), why, why, new(why, why, why, why, why, null), why, why, why, new(why, why));
}

/// <summary>Non-overlap of all pairs (Parker and Vannest 2009): how likely a point during teaching is past one before it, ties counting half.</summary>
/// <param name="Value">From 0 to 1; 0.5 where the two phases do not differ.</param>
/// <param name="Se">The unbiased standard error (Mee 1990). Where no pair overlaps it is that of half a pair overlapping, so that it is not 0.</param>
/// <param name="Low">Newcombe 2006 (Statistics in Medicine 25, 559–573), method 5. Where no pair overlaps both ends are the value itself, which is
/// no certainty: the method has nothing to measure.</param>
public sealed record Nap(Figure Value, Figure Se, Figure Low, Figure High);

/// <summary>Kendall's tau-b between phase and value once the baseline's own trend is taken out (Tarlow 2017).</summary>
/// <param name="Value">Computed without rounding: what ties after the correction ties here. 0 where all of it does.</param>
/// <param name="Se">√(2/N · (1 − tau²)).</param>
/// <param name="SOverMn">The corrected values' pairs that improve less those that worsen, of all pairs between the phases.</param>
/// <param name="BaselineSlope">Theil–Sen slope of the baseline per session, sessions counting from 1; not turned.</param>
/// <param name="BaselineP">The baseline's own two-sided Kendall p.</param>
/// <param name="Applies">Whether that p is below .05, the condition under which Tarlow corrects at all; null where there is none.</param>
public sealed record BaselineCorrectedTau(Figure Value, Figure Se, Figure SOverMn, Figure BaselineSlope, Figure BaselineP, bool? Applies)
{
    private const double Significant = 0.05;

    internal static BaselineCorrectedTau Of(IReadOnlyList<decimal> baseline, IReadOnlyList<decimal> teaching, int sign)
    {
        var all = baseline.Count + teaching.Count;
        decimal[] sessions = [.. Enumerable.Range(1, all).Select(i => (decimal)i)];
        var slope = PairSlopes.Of(sessions[..baseline.Count], baseline).Median;
        var own = MannKendall.Of(sessions[..baseline.Count], baseline);
        Fraction[] corrected = [.. baseline.Concat(teaching).Zip(sessions, (value, session) => Fraction.Of(value).Minus(slope.Times(Fraction.Of(session))))];
        int[] phases = [.. Enumerable.Range(0, all).Select(i => i < baseline.Count ? 0 : 1)];
        var pairs = Kendall.Of(phases, corrected);
        var tau = sign * (pairs.TauB.Value ?? 0); // all tie: nothing is left between the phases
        var p = own.P.Value!.Value;
        return new(
            Figure.Of(tau), Figure.Of(Math.Sqrt(2.0 / all * (1 - (tau * tau)))), Figure.Of((double)sign * pairs.S / (baseline.Count * teaching.Count)), Figure.Of(slope.Value), Figure.Of(p), p < Significant);
    }
}

/// <summary>The natural logarithm of the mean during teaching over the mean before it, corrected for the bias of few points
/// (Pustejovsky 2018). Below 0 where values fall, whichever direction is better.</summary>
/// <param name="Value">None unless both means are above 0.</param>
public sealed record LogResponseRatio(Figure Value, Figure Se)
{
    internal static LogResponseRatio Of(IReadOnlyList<decimal> baseline, IReadOnlyList<decimal> teaching)
    {
        if (Math.Min(Mean(baseline), Mean(teaching)) <= 0)
        {
            var none = Figure.None("needs a mean above 0 before and during teaching");
            return new(none, none);
        }
        double before = RelativeVariance(baseline), during = RelativeVariance(teaching);
        var ratio = Math.Log(Mean(teaching)) - Math.Log(Mean(baseline));
        return new(Figure.Of(ratio + ((during - before) / 2)), Figure.Of(Math.Sqrt(before + during)));
    }

    private static double Mean(IReadOnlyList<decimal> values) => values.Average(v => (double)v);

    /// <summary>The mean's variance over its square.</summary>
    private static double RelativeVariance(IReadOnlyList<decimal> values)
    {
        var mean = Mean(values);
        var variance = values.Sum(v => ((double)v - mean) * ((double)v - mean)) / (values.Count - 1);
        return variance / (values.Count * mean * mean);
    }
}
