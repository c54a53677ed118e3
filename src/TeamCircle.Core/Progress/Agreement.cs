namespace TeamCircle.Core.Progress;

/// <summary>How much a disagreement between two codes counts.</summary>
public enum Weights
{
    /// <summary>Each disagreement alike.</summary>
    None,

    /// <summary>By the distance between the two codes.</summary>
    Linear,

    /// <summary>By the square of the distance.</summary>
    Quadratic,
}

/// <summary>How far two observers agree, trial by trial (Cohen 1960; with weights, Cohen 1968).</summary>
/// <param name="Agree">Trials to which both gave the same code, whatever the weights.</param>
/// <param name="Exact">Those of all trials, from 0 to 1.</param>
/// <param name="Chance">The share to which both would give the same code by chance, each using the codes as often as they did.</param>
/// <param name="Kappa">Agreement beyond chance; none where chance agreement is 1, since both used one code throughout.</param>
/// <param name="KappaSe">Standard error of kappa (Fleiss, Cohen and Everitt 1969), for intervals, not for the test that kappa is 0.</param>
public sealed record Agreement(int Trials, int Agree, Figure Exact, Figure Chance, Figure Kappa, Figure KappaSe)
{
    /// <summary>From the codes that each observer gave. Codes stand in the order in which <typeparamref name="T"/> compares; the distance
    /// between two is the number of steps between them among the codes that were used.</summary>
    /// <exception cref="ArgumentException">The two are not of the same length.</exception>
    public static Agreement Of<T>(IReadOnlyList<T> first, IReadOnlyList<T> second, Weights weights = Weights.None) where T : IComparable<T>
    {
        if (first.Count != second.Count)
            throw new ArgumentException("Both observers code the same trials.", nameof(second));
        List<T> codes = [.. first.Concat(second).Distinct().Order()];
        var table = new int[codes.Count][];
        for (var i = 0; i < codes.Count; i++)
            table[i] = new int[codes.Count];
        for (var i = 0; i < first.Count; i++)
            table[codes.BinarySearch(first[i])][codes.BinarySearch(second[i])]++;
        return OfTable(table, weights);
    }

    /// <summary>From a square table of counts, rows for the first observer.</summary>
    /// <exception cref="ArgumentException">The table is not square, or a count is negative.</exception>
    public static Agreement OfTable(IReadOnlyList<IReadOnlyList<int>> table, Weights weights = Weights.None)
    {
        if (table.Any(row => row.Count != table.Count || row.Any(count => count < 0)))
            throw new ArgumentException("The table is square and holds counts.", nameof(table));
        var trials = table.Sum(row => row.Sum());
        if (trials == 0)
        {
            var none = Figure.None(Proportion.NoTrials);
            return new(0, 0, none, none, none, none);
        }
        var shares = new Shares(table, trials);
        var agree = table.Select((row, i) => row[i]).Sum();
        var (kappa, se) = shares.Kappa(weights);
        return new(trials, agree, Figure.Of((double)agree / trials), Figure.Of(shares.Chance(Weights.None)), kappa, se);
    }

    /// <summary>The table as shares of all trials.</summary>
    private sealed class Shares(IReadOnlyList<IReadOnlyList<int>> table, int trials)
    {
        private readonly int _size = table.Count;
        private readonly double[] _rows = [.. table.Select(row => (double)row.Sum() / trials)];
        private readonly double[] _columns = [.. table.Select((_, j) => (double)table.Sum(row => row[j]) / trials)];

        public double Chance(Weights weights) => Sum((i, j) => Weight(weights, i, j) * _rows[i] * _columns[j]);

        public (Figure Kappa, Figure Se) Kappa(Weights weights)
        {
            if (_rows.Zip(_columns, (r, c) => r * c).Any(both => both == 1))
                return (Figure.None("both used one code throughout"), Figure.None("both used one code throughout"));
            double observed = Sum((i, j) => Weight(weights, i, j) * Share(i, j)), chance = Chance(weights);
            var byRow = Enumerable.Range(0, _size).Select(i => Enumerable.Range(0, _size).Sum(j => Weight(weights, i, j) * _columns[j])).ToArray();
            var byColumn = Enumerable.Range(0, _size).Select(j => Enumerable.Range(0, _size).Sum(i => Weight(weights, i, j) * _rows[i])).ToArray();
            var spread = Sum((i, j) => Share(i, j) * Square((Weight(weights, i, j) * (1 - chance)) - ((byRow[i] + byColumn[j]) * (1 - observed))));
            var variance = (spread - Square((observed * chance) - (2 * chance) + observed)) / (trials * Square(Square(1 - chance)));
            return (Figure.Of((observed - chance) / (1 - chance)), Figure.Of(Math.Sqrt(Math.Max(0, variance)))); // rounding may leave less than 0
        }

        private double Share(int i, int j) => (double)table[i][j] / trials;

        private double Sum(Func<int, int, double> of) =>
            Enumerable.Range(0, _size).Sum(i => Enumerable.Range(0, _size).Sum(j => of(i, j)));

        private double Weight(Weights weights, int i, int j)
        {
            var distance = _size > 1 ? Math.Abs(i - j) / (double)(_size - 1) : 0;
            return weights switch
            {
                Weights.Linear => 1 - distance,
                Weights.Quadratic => 1 - (distance * distance),
                _ => i == j ? 1 : 0,
            };
        }

        private static double Square(double value) => value * value;
    }
}
