using MathNet.Numerics.LinearAlgebra;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Practice;

/// <summary>Whether groups of trials differ in time to respond more than chance would make them (Mantel 1966; Peto and Peto 1972).</summary>
/// <remarks>Shown for conditions only, never for named people: trials of one visit are not independent.</remarks>
/// <param name="ChiSquare">None where fewer than two groups have a trial that a response could still have come in.</param>
/// <param name="Df">Groups that were compared, less one.</param>
/// <param name="P">The chance of at least as large a value.</param>
public sealed record LogRank(Figure ChiSquare, int Df, Figure P)
{
    /// <param name="trials">Each with its group.</param>
    /// <exception cref="ArgumentException">A trial has no group.</exception>
    public static LogRank Of(IReadOnlyList<TimedTrial> trials)
    {
        if (trials.Any(t => t.Group is null))
            throw new ArgumentException("Each trial belongs to a group.", nameof(trials));
        string[] groups = [.. trials.Select(t => t.Group!).Distinct().Order(StringComparer.Ordinal)];
        var places = groups.Index().ToDictionary(g => g.Item, g => g.Index);
        TimedTrial[] sorted = [.. trials];
        Array.Sort(sorted, WaitCurve.BySeconds);
        var own = Array.ConvertAll(sorted, t => places[t.Group!]);
        var (sums, atRisk) = (new Sums(groups.Length), new int[groups.Length]);
        foreach (var group in own)
            atRisk[group]++;
        for (int from = 0, to; from < sorted.Length; from = to)
        {
            var answered = new int[groups.Length];
            for (to = from; to < sorted.Length && sorted[to].Seconds == sorted[from].Seconds; to++)
                answered[own[to]] += sorted[to].Answered ? 1 : 0;
            sums.Take(atRisk, answered);
            for (var i = from; i < to; i++)
                atRisk[own[i]]--;
        }
        return sums.Compare();
    }

    /// <summary>Responses less those expected in each group, and their covariances.</summary>
    private sealed class Sums(int groups)
    {
        private readonly double[] _difference = new double[groups];
        private readonly double[,] _variance = new double[groups, groups];

        public void Take(int[] atRisk, int[] answered)
        {
            double all = atRisk.Sum(), responses = answered.Sum();
            if (responses == 0)
                return;
            for (var g = 0; g < groups; g++)
                _difference[g] += answered[g] - (responses * atRisk[g] / all);
            if (all < 2)
                return;
            var each = responses * (all - responses) / (all - 1);
            for (var g = 0; g < groups; g++)
            {
                for (var h = 0; h < groups; h++)
                    _variance[g, h] += each * (atRisk[g] / all) * ((g == h ? 1 : 0) - (atRisk[h] / all));
            }
        }

        /// <summary>One group is left out, since the differences add up to 0; so is one that was never compared with another.</summary>
        public LogRank Compare()
        {
            int[] compared = [.. Enumerable.Range(0, groups).Where(g => _variance[g, g] > 0)];
            if (compared.Length < 2)
                return new(Figure.None("needs two groups with trials to compare"), 0, Figure.None("needs two groups with trials to compare"));
            var kept = compared[1..];
            var difference = Vector<double>.Build.Dense([.. kept.Select(g => _difference[g])]);
            var variance = Matrix<double>.Build.Dense(kept.Length, kept.Length, (g, h) => _variance[kept[g], kept[h]]);
            var chiSquare = difference * variance.Solve(difference);
            return new(Figure.Of(chiSquare), kept.Length, Figure.Of(Confidence.ChiSquareAbove(chiSquare, kept.Length)));
        }
    }
}
