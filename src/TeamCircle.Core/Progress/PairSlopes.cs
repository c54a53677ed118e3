using System.Numerics;

namespace TeamCircle.Core.Progress;

/// <summary>The slopes between all pairs of points whose x differ, in order, and their median without rounding.</summary>
/// <remarks>400 points have 80,000 pairs. Days and values with few decimals are whole numbers once scaled, and their quotients can be put in order in
/// binary floating point without a mistake; anything else is done in exact fractions, many times slower.</remarks>
internal sealed class PairSlopes
{
    // Quotients a/b and c/d that differ do so by 1/bd at least: below this they are never rounded to the same number, nor past each other.
    private const decimal Widest = 1 << 25;
    private const int MostDecimals = 9;

    private readonly double[] _sorted;

    private PairSlopes(double[] sorted, Func<Fraction> median) => (_sorted, Median) = (sorted, sorted.Length == 0 ? default : median());

    public int Count => _sorted.Length;

    /// <summary>Of an even number of slopes the mean of the two in the middle; meaningless without slopes.</summary>
    public Fraction Median { get; }

    /// <param name="rank">From 0.</param>
    public double this[int rank] => _sorted[rank];

    public static PairSlopes Of(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y) =>
        Scaled(x) is { } days && Scaled(y) is { } values ? OfWhole(days, values) : OfFractions(x, y);

    private static PairSlopes OfFractions(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y)
    {
        Fraction[] exactX = [.. x.Select(Fraction.Of)], exactY = [.. y.Select(Fraction.Of)];
        var slopes = Pairs(x).Select(p => exactY[p.To].Minus(exactY[p.From]).Over(exactX[p.To].Minus(exactX[p.From]))).Order().ToList();
        return new([.. slopes.Select(s => s.Value)], () => Fraction.MedianOf(slopes));
    }

    private static PairSlopes OfWhole((long[] Values, int Decimals) x, (long[] Values, int Decimals) y)
    {
        var steps = new List<(long Rise, long Run)>(x.Values.Length * (x.Values.Length - 1) / 2);
        foreach (var (from, to) in Pairs(x.Values))
            steps.Add((y.Values[to] - y.Values[from], x.Values[to] - x.Values[from]));
        var pairs = steps.ToArray();
        var quotients = Array.ConvertAll(pairs, p => (double)p.Rise / p.Run);
        Array.Sort(quotients, pairs);
        var (over, under) = (BigInteger.Pow(10, x.Decimals), BigInteger.Pow(10, y.Decimals));
        Fraction At(int rank) => Fraction.Ratio(pairs[rank].Rise * over, pairs[rank].Run * under);
        var scale = (double)over / (double)under;
        return new(
            Array.ConvertAll(quotients, q => q * scale),
            () => Fraction.MedianOf(pairs.Length % 2 == 1 ? [At(pairs.Length / 2)] : [At((pairs.Length / 2) - 1), At(pairs.Length / 2)]));
    }

    private static IEnumerable<(int From, int To)> Pairs<T>(IReadOnlyList<T> x) where T : IEquatable<T>
    {
        for (var i = 0; i < x.Count; i++)
        {
            for (var j = i + 1; j < x.Count; j++)
            {
                if (!x[i].Equals(x[j]))
                    yield return (i, j);
            }
        }
    }

    /// <summary>As whole numbers above the least; null where they are spread too widely or have too many decimals.</summary>
    private static (long[] Values, int Decimals)? Scaled(IReadOnlyList<decimal> values)
    {
        if (values.Count == 0)
            return ([], 0);
        var (decimals, least, spread) = (values.Max(v => v.Scale), values.Min(), values.Max() / 2 - values.Min() / 2);
        var times = decimals > MostDecimals ? 0 : (decimal)Math.Pow(10, decimals);
        return times == 0 || spread > Widest / times / 2 ? null : ([.. values.Select(v => (long)((v - least) * times))], decimals);
    }
}
