using System.Numerics;
using System.Text.Json;
using MathNet.Numerics;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Commitments;

public sealed class ForecastTests
{
    [Fact]
    public void Equal_visits_follow_the_published_beta_binomial_distribution()
    {
        foreach (var published in Published.Read("betabinomial.json").GetProperty("cases").EnumerateArray())
        {
            var visits = Enumerable.Repeat(30, published.GetProperty("n").GetInt32()).ToArray();
            var atMost = published.GetProperty("cdf").EnumerateArray().Select(v => v.GetDouble()).ToArray();
            for (var needed = 1; needed <= visits.Length; needed++)
            {
                var forecast = Forecast.Of(Chance(published), [new(30 * needed, visits)]);
                Assert.Equal(1 - atMost[needed - 1], forecast.Chance, 1e-12);
            }
        }
    }

    [Fact]
    public void Unequal_visits_follow_the_published_weighted_sums()
    {
        foreach (var published in Published.Read("weighted_bernoulli.json").EnumerateArray())
        {
            var visits = published.GetProperty("weights").EnumerateArray().Select(v => v.GetInt32()).ToArray();
            var sums = published.GetProperty("pmf").EnumerateArray().Select(v => (Sum: v[0].GetInt32(), Chance: v[1].GetDouble())).ToArray();
            for (var needed = 1; needed <= visits.Sum(); needed++)
            {
                var forecast = Forecast.Of(Chance(published), [new(needed, visits)]);
                Assert.Equal(sums.Where(s => s.Sum >= needed).Sum(s => s.Chance), forecast.Chance, 1e-12);
                Assert.Equal(sums.Sum(s => s.Chance * Math.Max(0, needed - s.Sum)), forecast.ExpectedShort, 1e-12);
            }
            Assert.Equal(published.GetProperty("prob_ge_threshold").GetDouble(),
                Forecast.Of(Chance(published), [new(published.GetProperty("threshold").GetInt32(), visits)]).Chance, 1e-12);
        }
    }

    /// <summary>The rule as it is written: C(J) · B(k + ½ + J, n − k + ½ + r − J) / B(k + ½, n − k + ½), with MathNet.Numerics' beta function.</summary>
    [Theory]
    [InlineData(11, 9, 6, 150)]
    [InlineData(5, 0, 12, 240)]
    [InlineData(60, 60, 40, 1200)]
    [InlineData(60, 31, 150, 2400)]
    public void Equal_visits_follow_the_rules_own_sum(int planned, int given, int visits, int lack)
    {
        var (a, b) = (given + 0.5, planned - given + 0.5);
        var chance = Enumerable.Range(0, visits + 1).Where(taken => 30 * taken >= lack).Sum(taken => Math.Exp(
            SpecialFunctions.BinomialLn(visits, taken) + SpecialFunctions.BetaLn(a + taken, b + visits - taken) - SpecialFunctions.BetaLn(a, b)));

        var forecast = Forecast.Of(new PastVisits(planned, given), [new(lack, Enumerable.Repeat(30, visits).ToArray())]);

        Assert.Equal(chance, forecast.Chance, 1e-9);
    }

    /// <summary>Counts subsets one by one and folds them over the windows, as the rule is written.</summary>
    [Fact]
    public void Several_windows_follow_the_rules_own_sum()
    {
        ForecastWindow[] windows = [new(55, [30, 25, 40]), new(60, [20, 20, 20, 45]), new(10, [15])];
        BigInteger[] folded = [1];
        foreach (var window in windows)
            folded = Fold(folded, Subsets(window));
        var (a, b, visits) = (7.5, 4.5, folded.Length - 1);
        var chance = folded.Select((ways, taken) => (double)ways * Math.Exp(
            SpecialFunctions.BetaLn(a + taken, b + visits - taken) - SpecialFunctions.BetaLn(a, b))).Sum();

        Assert.Equal(chance, Forecast.Of(new PastVisits(11, 7), windows).Chance, 1e-12);
    }

    [Fact]
    public void Several_windows_agree_with_a_simulation()
    {
        const int Seed = 20261125, Rounds = 200_000;
        ForecastWindow[] windows = [new(60, [30, 45, 30]), new(30, [30]), new(75, [25, 25, 25, 60])];
        var (chance, expected) = Simulate(windows, given: 6, planned: 8, Rounds, new Random(Seed));

        var forecast = Forecast.Of(new PastVisits(8, 6), windows);

        // five standard errors: half of a million such comparisons pass
        Assert.True(Math.Abs(forecast.Chance - chance) < 5 * Math.Sqrt(0.25 / Rounds), $"{forecast.Chance}, simulated {chance}, seed {Seed}");
        Assert.True(Math.Abs(forecast.ExpectedShort - expected) < 5 * 165 / 2 / Math.Sqrt(Rounds), $"{forecast.ExpectedShort}, simulated {expected}, seed {Seed}");
    }

    [Fact]
    public void Windows_of_a_line_are_those_that_lack_with_the_visits_that_would_count_in_them()
    {
        // weeks of 60: that of 21 September lacks 30 and gets a make-up, that of 5 October lacks 60 and has two visits, that of 12 October none
        var line = new ALine { AsOf = new(2026, 10, 5) }.GivenEveryWeek(new(2026, 8, 17), 5).Given(9, 21, 30).Given(9, 28, 60)
            .PlannedVisit(10, 6, 30).PlannedVisit(10, 8, 45).PlannedVisit(10, 7, 40, pays: new(2026, 9, 22));

        var windows = ForecastWindow.Of(line.WorkOut());

        Assert.Equal([(30, "40"), (60, "30 45"), (60, "")], windows.Select(w => (w.Lack, string.Join(' ', w.Visits))));
    }

    [Fact]
    public void Where_surplus_carries_there_is_one_window()
    {
        var carry = new Policies(Policy.Default with { Surplus = Surplus.CarryWithinPeriod });
        var line = new ALine { AsOf = new(2026, 10, 5), Policies = carry }.GivenEveryWeek(new(2026, 8, 17), 6, minutes: 75)
            .PlannedVisit(10, 6, 30).PlannedVisit(10, 13, 60);

        var window = Assert.Single(ForecastWindow.Of(line.WorkOut()));

        Assert.Equal((90, "30 60"), (window.Lack, string.Join(' ', window.Visits))); // nine weeks of 60 less six of 75
    }

    [Fact]
    public void Windows_that_lack_nothing_are_certain()
    {
        Assert.Equal(new(1, 0), Forecast.Of(new PastVisits(9, 4), []));
        Assert.Equal(new(1, 0), Forecast.Of(new PastVisits(9, 4), [new(0, [30, 30])]));
    }

    [Fact]
    public void Window_that_visits_cannot_fill_has_no_chance_and_gets_what_it_can()
    {
        var forecast = Forecast.Of(new UnknownChance(1, 1), [new(100, [30, 40])]);

        Assert.Equal(0, forecast.Chance);
        Assert.Equal(65, forecast.ExpectedShort, 1e-12); // half of the 70 minutes take place on average
    }

    [Fact]
    public void Chance_of_many_visits_neither_overflows_nor_vanishes()
    {
        var year = Enumerable.Repeat(new ForecastWindow(30, [30, 30, 30, 30]), 45).ToArray();

        var forecast = Forecast.Of(new PastVisits(200, 190), year);

        Assert.InRange(forecast.Chance, 0.99, 1);
        Assert.InRange(forecast.ExpectedShort, 0, 1);
    }

    [Theory]
    [InlineData(4, false)]
    [InlineData(5, true)]
    public void Five_past_visits_are_enough_to_show_one(int planned, bool enough) => Assert.Equal(enough, new PastVisits(planned, 0).AreEnough);

    [Fact]
    public void More_given_than_planned_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Forecast.Of(new PastVisits(3, 4), []));

    [Theory]
    [InlineData("""{"kind": "forecast", "plannedPast": 3, "givenPast": 4, "windows": []}""", "givenPast: must not be more than plannedPast")]
    [InlineData("""{"kind": "forecast", "plannedPast": 3, "givenPast": 3}""", "windows: is missing")]
    [InlineData("""{"kind": "forecast", "plannedPast": 3, "givenPast": 3, "windows": [{"need": 30, "remaining": [0]}]}""",
        "windows[0].remaining[0]: must be from 1 to 1440, not 0")]
    [InlineData("""{"kind": "forecast", "plannedPast": 3, "givenPast": 3, "windows": [{"need": 30, "remaining": [30], "pays": 1}]}""",
        "windows[0].pays: is not known here")]
    public void Wrong_field_of_a_case_is_named(string file, string message) =>
        Assert.Equal(message, Assert.Throws<CaseException>(() => CaseFile.WorkOut(file)).Message);

    private static UnknownChance Chance(JsonElement published) =>
        new(published.GetProperty("alpha").GetDouble(), published.GetProperty("beta").GetDouble());

    private static BigInteger[] Subsets(ForecastWindow window)
    {
        var ways = new BigInteger[window.Visits.Count + 1];
        for (var subset = 0; subset < 1 << window.Visits.Count; subset++)
        {
            if (window.Visits.Where((_, i) => (subset >> i & 1) == 1).Sum() >= window.Lack)
                ways[BitOperations.PopCount((uint)subset)]++;
        }
        return ways;
    }

    private static BigInteger[] Fold(BigInteger[] one, BigInteger[] other)
    {
        var both = new BigInteger[one.Length + other.Length - 1];
        for (var i = 0; i < one.Length; i++)
        {
            for (var j = 0; j < other.Length; j++)
                both[i + j] += one[i] * other[j];
        }
        return both;
    }

    private static (double Chance, double Short) Simulate(ForecastWindow[] windows, int given, int planned, int rounds, Random random)
    {
        var (met, lacking) = (0, 0.0);
        var beta = new MathNet.Numerics.Distributions.Beta(given + 0.5, planned - given + 0.5, random);
        for (var round = 0; round < rounds; round++)
        {
            var chance = beta.Sample();
            var lacks = windows.Sum(w => Math.Max(0, w.Lack - w.Visits.Where(_ => random.NextDouble() < chance).Sum()));
            met += lacks == 0 ? 1 : 0;
            lacking += lacks;
        }
        return ((double)met / rounds, lacking / rounds);
    }
}
