namespace TeamCircle.Core.Progress;

/// <summary>Concordant less discordant pairs of a series, and its ties (Kendall 1938, 1970).</summary>
/// <param name="S">Pairs in which both rise less pairs in which one rises and the other falls.</param>
/// <param name="Untied">Pairs that do not tie in the first value, and in the second.</param>
internal readonly record struct Kendall(int S, (long First, long Second) Untied)
{
    /// <summary>Looks at each pair.</summary>
    public static Kendall Of<TFirst, TSecond>(IReadOnlyList<TFirst> first, IReadOnlyList<TSecond> second)
        where TFirst : IComparable<TFirst> where TSecond : IComparable<TSecond>
    {
        var (s, untiedFirst, untiedSecond) = (0, 0L, 0L);
        for (var i = 0; i < first.Count; i++)
        {
            for (var j = i + 1; j < first.Count; j++)
            {
                var (one, other) = (Math.Sign(first[j].CompareTo(first[i])), Math.Sign(second[j].CompareTo(second[i])));
                s += one * other;
                untiedFirst += Math.Abs(one);
                untiedSecond += Math.Abs(other);
            }
        }
        return new(s, (untiedFirst, untiedSecond));
    }

    /// <summary>Tau-b: S over the geometric mean of the pairs that do not tie. None where all pairs of one of the two tie.</summary>
    public Figure TauB => Untied is { First: > 0, Second: > 0 }
        ? Figure.Of(S / (Math.Sqrt(Untied.First) * Math.Sqrt(Untied.Second)))
        : Figure.None("every value is the same");

    /// <summary>The variance of S where the order is chance, corrected for ties in both values (Kendall 1970, chapter 4).</summary>
    public static double VarianceOf(IReadOnlyList<decimal> first, IReadOnlyList<decimal> second)
    {
        double n = first.Count;
        if (n < 2)
            return 0;
        double[] one = Ties(first), other = Ties(second);
        var variance = (Whole(n) - one.Sum(Whole) - other.Sum(Whole)) / 18;
        variance += one.Sum(Pairs) * other.Sum(Pairs) / (2 * n * (n - 1));
        return n < 3 ? variance : variance + (one.Sum(Triples) * other.Sum(Triples) / (9 * n * (n - 1) * (n - 2)));
    }

    private static double[] Ties(IReadOnlyList<decimal> values) => [.. values.GroupBy(v => v).Select(g => (double)g.Count())];

    private static double Whole(double t) => t * (t - 1) * ((2 * t) + 5);

    private static double Pairs(double t) => t * (t - 1);

    private static double Triples(double t) => t * (t - 1) * (t - 2);
}
