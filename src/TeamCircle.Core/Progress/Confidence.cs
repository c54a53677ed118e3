using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace TeamCircle.Core.Progress;

/// <summary>What statistics ask of the normal and the chi-square distribution.</summary>
internal static class Confidence
{
    public const double Usual = 0.95;

    /// <summary>How many standard errors lie on each side of a two-sided interval.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The confidence does not lie between 0 and 1.</exception>
    public static double Width(double confidence) =>
        confidence is > 0 and < 1
            ? Normal.InvCDF(0, 1, 1 - ((1 - confidence) / 2))
            : throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "Confidence lies between 0 and 1.");

    /// <summary>The chance, in both directions together, of a standard normal value at least as far from 0.</summary>
    public static double TwoSided(double z) => SpecialFunctions.Erfc(Math.Abs(z) / Math.Sqrt(2));

    /// <summary>The chance of a chi-square value at least as large.</summary>
    public static double ChiSquareAbove(double value, int degrees) =>
        value <= 0 ? 1 : SpecialFunctions.GammaUpperRegularized(degrees / 2.0, value / 2);
}
