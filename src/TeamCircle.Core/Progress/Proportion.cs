namespace TeamCircle.Core.Progress;

/// <summary>A share of trials with its interval (Wilson 1927: the score interval without continuity correction).</summary>
/// <param name="Value">From 0 to 1; none of no trials, as are the limits.</param>
public sealed record Proportion(Figure Value, Figure Low, Figure High)
{
    /// <exception cref="ArgumentOutOfRangeException">A number is negative, there are more successes than trials, or the confidence does not lie between 0 and 1.</exception>
    public static Proportion Of(int successes, int trials, double confidence = Confidence.Usual)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(successes);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(successes, trials);
        var z = Confidence.Width(confidence);
        if (trials == 0)
            return new(Figure.None(NoTrials), Figure.None(NoTrials), Figure.None(NoTrials));
        double share = (double)successes / trials, spread = z * z / trials;
        var middle = (share + (spread / 2)) / (1 + spread);
        var half = Math.Sqrt((share * (1 - share) * spread) + (spread * spread / 4)) / (1 + spread);
        // the ends are 0 and 1 by the formula; rounding would put them beside
        return new(Figure.Of(share), Figure.Of(successes == 0 ? 0 : middle - half), Figure.Of(successes == trials ? 1 : middle + half));
    }

    /// <summary>This share less another of other trials, with its interval (Newcombe 1998, Statistics in Medicine 17, 873–890, method 10:
    /// from the two score intervals).</summary>
    /// <remarks>It takes the trials as independent, which those of one visit are not: the interval is too narrow rather than too wide.</remarks>
    public Proportion Less(Proportion other)
    {
        if ((Value.Why ?? other.Value.Why) is { } why)
            return new(Figure.None(why), Figure.None(why), Figure.None(why));
        double here = Value.Value!.Value, there = other.Value.Value!.Value;
        return new(
            Figure.Of(here - there),
            Figure.Of(here - there - Root(here - Low.Value!.Value, other.High.Value!.Value - there)),
            Figure.Of(here - there + Root(High.Value!.Value - here, there - other.Low.Value!.Value)));
    }

    internal const string NoTrials = "no trials";

    private static double Root(double one, double other) => Math.Sqrt((one * one) + (other * other));
}
