using System.Numerics;

namespace TeamCircle.Core.Commitments;

/// <summary>How many of the visits that were planned lately took place.</summary>
/// <param name="Planned">Visits of one provider and learner; closures and days on which the learner was away are left out.</param>
/// <param name="Given">Those of them that took place, from 0 to <paramref name="Planned"/>.</param>
public readonly record struct PastVisits(int Planned, int Given)
{
    /// <summary>A forecast is shown from this many past visits on: fewer say too little.</summary>
    public const int Least = 5;

    /// <summary>The last instructional days that are looked at.</summary>
    public const int Days = 60;

    public bool AreEnough => Planned >= Least;
}

/// <summary>The distribution Beta(<paramref name="Alpha"/>, <paramref name="Beta"/>) of the one chance, which nobody knows, that a visit takes place.</summary>
/// <param name="Alpha">Above zero.</param>
/// <param name="Beta">Above zero.</param>
public readonly record struct UnknownChance(double Alpha, double Beta)
{
    /// <summary>What past visits leave of Jeffreys' prior.</summary>
    public static UnknownChance After(PastVisits past) => new(past.Given + 0.5, past.Planned - past.Given + 0.5);

    /// <summary>The chance of the next visit after <paramref name="seen"/> more, of which <paramref name="given"/> took place.</summary>
    public double Next(int seen, int given) => (Alpha + given) / (Alpha + Beta + seen);
}

/// <summary>A window that still lacks something.</summary>
/// <param name="Lack">Minutes; zero is given for certain.</param>
/// <param name="Visits">Minutes of each visit still planned that would count in it, make-ups with the window they pay; all above zero.</param>
public readonly record struct ForecastWindow(int Lack, IReadOnlyList<int> Visits)
{
    /// <summary>The windows of a line's period that lack something; one for all of them where surplus carries within the period.</summary>
    public static IReadOnlyList<ForecastWindow> Of(Working working)
    {
        var planned = working.PlannedEntries.Where(e => e.Fate is Fate.Ordinary or Fate.MakeUp && e.Entry.Amount > 0).ToList();
        var lacking = working.Closing.Where(w => w.Minutes.Lack > 0).Select(w => (w.Index, w.Minutes.Lack));
        if (working.At.Policies.On(working.At.Period.Last).Surplus == Surplus.CarryWithinPeriod)
        {
            var closing = working.Closing.Select(w => (int?)w.Index).ToHashSet();
            return [new(working.Balance.Minutes.Lack, [.. planned.Where(e => closing.Contains(WindowOf(e))).Select(e => e.Entry.Amount)])];
        }
        return [.. lacking.Select(w => new ForecastWindow(w.Lack, [.. planned.Where(e => WindowOf(e) == w.Index).Select(e => e.Entry.Amount)]))];
    }

    private static int? WindowOf(EntryWorking entry) => entry.Fate == Fate.MakeUp ? entry.Parts.Pays : entry.Parts.Own;
}

/// <summary>How likely planned visits are to bring what lacks (docs/rules.md, part 9). About minutes only, for staff only.</summary>
/// <param name="Chance">The chance, from 0 to 1, that every window gets what it lacks.</param>
/// <param name="ExpectedShort">Minutes that will lack on average, over all windows.</param>
public readonly record struct Forecast(double Chance, double ExpectedShort)
{
    /// <exception cref="ArgumentOutOfRangeException">More were given than planned, or a number is negative.</exception>
    public static Forecast Of(PastVisits past, IReadOnlyList<ForecastWindow> windows)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(past.Given);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(past.Given, past.Planned);
        return Of(UnknownChance.After(past), windows);
    }

    /// <summary>Visits happen independently given the unknown chance, which is the same for all.</summary>
    /// <remarks>The rule's sum over J of C(J) · B(α + J, β + r − J) / B(α, β), taken visit by visit: after i visits of which j took place
    /// the next one does with chance (α + j) / (α + β + i). Every term is positive and their sum stays 1, so that nothing overflows or
    /// cancels and no logarithm is needed. Where nothing is planned, the chance is 0 and all that lacks is expected to lack;
    /// where nothing lacks, the chance is 1.</remarks>
    public static Forecast Of(UnknownChance chance, IReadOnlyList<ForecastWindow> windows)
    {
        var (all, seen, shortfall) = (new double[] { 1 }, 0, 0.0);
        foreach (var window in windows.Where(w => w.Lack > 0))
        {
            shortfall += new Walk(chance, window, [1], 0).Short();
            all = new Walk(chance, window, all, seen).Met();
            seen += window.Visits.Count;
        }
        return new(all.Sum(), shortfall);
    }

    /// <summary>Goes through the visits of one window, holding how likely each pair is: how many visits took place so far, and what
    /// the window got (in steps of the minutes' greatest common divisor, at most what it lacks).</summary>
    private sealed class Walk
    {
        private readonly UnknownChance _chance;
        private readonly int _lack;
        private readonly int _step;
        private readonly int _enough;
        private double[][] _cells;

        /// <param name="start">How likely each number of visits is among those before this window.</param>
        /// <param name="seen">How many visits were before.</param>
        public Walk(UnknownChance chance, ForecastWindow window, double[] start, int seen)
        {
            _chance = chance;
            _lack = window.Lack;
            _step = window.Visits.Aggregate(0, (divisor, minutes) => (int)BigInteger.GreatestCommonDivisor(divisor, minutes));
            _enough = _step == 0 ? 1 : Math.Min((_lack + _step - 1) / _step, (window.Visits.Sum() / _step) + 1);
            _cells = [.. start.Select(likely => Row(likely))];
            foreach (var minutes in window.Visits)
                Pass(minutes / _step, seen++);
        }

        /// <summary>The chance of each number of visits together with the window having all it lacks.</summary>
        public double[] Met() => [.. _cells.Select(row => row[_enough])];

        /// <summary>Minutes that lack on average.</summary>
        public double Short() => _cells.Sum(row => row.Select((likely, got) => likely * Math.Max(0, _lack - (got * _step))).Sum());

        private double[] Row(double first)
        {
            var row = new double[_enough + 1];
            row[0] = first;
            return row;
        }

        private void Pass(int steps, int seen)
        {
            double[][] after = [.. Enumerable.Range(0, _cells.Length + 1).Select(_ => Row(0))];
            for (var given = 0; given < _cells.Length; given++)
            {
                var next = _chance.Next(seen, given);
                for (var got = 0; got <= _enough; got++)
                {
                    after[given][got] += _cells[given][got] * (1 - next);
                    after[given + 1][Math.Min(_enough, got + steps)] += _cells[given][got] * next;
                }
            }
            _cells = after;
        }
    }
}
