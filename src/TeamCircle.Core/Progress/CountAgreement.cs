namespace TeamCircle.Core.Progress;

/// <summary>How far two observers' counts agree, interval by interval (Reed and Azulay 2011 set the ways side by side). In percent.</summary>
/// <param name="Total">The smaller total of the larger one; nothing seen by both is agreement.</param>
/// <param name="MeanPerInterval">The mean of the smaller count of the larger one, interval by interval; both 0 is agreement.</param>
/// <param name="ExactPerInterval">Intervals with the same count.</param>
/// <param name="Scored">Intervals that both scored, of those that either did; none where nobody scored any.</param>
/// <param name="Unscored">Intervals that neither scored, of those that either left; none where both scored all.</param>
public sealed record CountAgreement(Figure Total, Figure MeanPerInterval, Figure ExactPerInterval, Figure Scored, Figure Unscored)
{
    /// <param name="first">Counts of 0 or more, one an interval.</param>
    /// <param name="second">As many.</param>
    /// <exception cref="ArgumentException">The two are not of the same length, or a count is negative.</exception>
    public static CountAgreement Of(IReadOnlyList<int> first, IReadOnlyList<int> second)
    {
        if (first.Count != second.Count || first.Concat(second).Any(count => count < 0))
            throw new ArgumentException("Both observers count the same intervals, from 0 on.", nameof(second));
        (int One, int Other)[] intervals = [.. first.Zip(second)];
        if (intervals.Length == 0)
        {
            var none = Figure.None("no intervals");
            return new(none, none, none, none, none);
        }
        return new(
            Figure.Of(Smaller(first.Sum(c => (long)c), second.Sum(c => (long)c))), Figure.Of(intervals.Average(i => Smaller(i.One, i.Other))),
            Figure.Of(100.0 * intervals.Count(i => i.One == i.Other) / intervals.Length),
            Both(intervals, count => count > 0, "nobody scored an interval"), Both(intervals, count => count == 0, "both scored every interval"));
    }

    private static double Smaller(long one, long other) => one == other ? 100 : 100.0 * Math.Min(one, other) / Math.Max(one, other);

    private static Figure Both((int One, int Other)[] intervals, Func<int, bool> marked, string otherwise)
    {
        var either = intervals.Count(i => marked(i.One) || marked(i.Other));
        return either == 0 ? Figure.None(otherwise) : Figure.Of(100.0 * intervals.Count(i => marked(i.One) && marked(i.Other)) / either);
    }
}
