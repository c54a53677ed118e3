namespace TeamCircle.Core.Progress;

/// <summary>Each point before teaching with each one during it, and what the pairs come to. More is better in both.</summary>
internal sealed class PhasePairs
{
    private readonly decimal[] _before;
    private readonly decimal[] _during;

    /// <summary>Twice the worth of each pair, rows for points before teaching: 2 where it improves, 1 where it ties, 0.</summary>
    private readonly int[][] _worth;
    private readonly double _pairs;

    public PhasePairs(decimal[] before, decimal[] during)
    {
        (_before, _during, _pairs) = (before, during, (double)before.Length * during.Length);
        _worth = [.. before.Select(b => during.Select(d => 1 + Math.Sign(d.CompareTo(b))).ToArray())];
        Share = _worth.Sum(row => row.Sum()) / 2.0 / _pairs;
    }

    /// <summary>Non-overlap of all pairs.</summary>
    public double Share { get; }

    private int S => _worth.Sum(row => row.Sum(worth => worth - 1));

    public double Tau => S / _pairs;

    public double TauU => (S - Kendall.Of([.. Enumerable.Range(0, _before.Length)], _before).S) / _pairs;

    public double Pnd => (double)_during.Count(d => d > _before.Max()) / _during.Length;

    public double Pem
    {
        get
        {
            var median = ExactLine.MedianOf(_before);
            return _during.Sum(d => (1 + Fraction.Of(d).CompareTo(median)) / 2.0) / _during.Length;
        }
    }

    /// <summary>The best cut keeps what is below it before teaching and what is not below it during teaching.</summary>
    public double Ird
    {
        get
        {
            var removed = _during.Min(cut => _before.Count(b => b >= cut) + _during.Count(d => d < cut));
            return 1 - (Math.Min(removed, _during.Length) / 2.0 * ((1.0 / _before.Length) + (1.0 / _during.Length)));
        }
    }

    public Nap Nap(double width)
    {
        var variance = Variance();
        return new(
            Figure.Of(Share), variance >= 0 ? Figure.Of(Math.Sqrt(variance)) : Figure.None("the estimate of its variance is below 0"),
            Figure.Of(Limit(width, 0)), Figure.Of(Limit(width, 1)));
    }

    /// <summary>One pair's variance is taken as θ(1 − θ), as Mee's estimator has it, and the covariances of pairs that share a point from the
    /// means of rows and columns. Where no pair overlaps all of them vanish, and θ stands half a pair away from its end.</summary>
    private double Variance()
    {
        double m = _before.Length, n = _during.Length, half = 0.5 / _pairs;
        var pair = Math.Clamp(Share, half, 1 - half);
        var rows = _worth.Sum(row => Square((row.Sum() / 2.0 / n) - Share)) / m;
        var columns = Enumerable.Range(0, _during.Length).Sum(j => Square((_worth.Sum(row => row[j]) / 2.0 / m) - Share)) / n;
        var single = _worth.Sum(row => row.Sum(worth => Square((worth / 2.0) - Share))) / _pairs;
        return ((pair * (1 - pair)) + (n * rows) + (m * columns) - (2 * single)) / ((m - 1) * (n - 1));
    }

    /// <summary>Between the value and an end of the scale, the θ that the value is just <paramref name="width"/> standard errors away from.
    /// The difference falls and rises once over that stretch, so that halving it finds the place.</summary>
    private double Limit(double width, double end)
    {
        if (Share is 0 or 1)
            return Share;
        var (inside, outside) = (Share, end);
        for (var i = 0; i < 100 && inside != outside; i++) // 100 halvings pass the last digit of a double
        {
            var middle = (inside + outside) / 2;
            if (Square(Share - middle) < width * width * Spread(middle))
                inside = middle;
            else
                outside = middle;
        }
        return inside;
    }

    private double Spread(double theta)
    {
        var others = ((_before.Length + _during.Length) / 2.0) - 1;
        return theta * (1 - theta) / _pairs * (1 + (others * (((1 - theta) / (2 - theta)) + (theta / (1 + theta)))));
    }

    private static double Square(double value) => value * value;
}
