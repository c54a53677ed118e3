using System.Text.Json;
using CsCheck;
using MathNet.Numerics;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>The published series of Checks/trend.json and kendall.json, and other ways to the same figures.</summary>
public sealed class TrendTests
{
    private static readonly JsonElement Series = Published.Read("trend.json");
    private static readonly JsonElement Kendalls = Published.Read("kendall.json");

    private static readonly Gen<(decimal[] X, decimal[] Y)> Any =
        from x in Gen.Int[1, 30].Array[3, 12]
        from y in Gen.Int[-20, 20].Array[12]
        where x.Distinct().Count() > 1
        select (x.Select(v => (decimal)v).ToArray(), y.Take(x.Length).Select(v => v / 10m).ToArray());

    public static TheoryData<string> WithTest() => Holding("mann_kendall");

    public static TheoryData<string> WithSquares() => Holding("ols");

    public static TheoryData<string> Pairs() => [.. Kendalls.EnumerateObject().Select(s => s.Name)];

    [Theory]
    [MemberData(nameof(WithTest))]
    public void Mann_Kendall_and_Theil_Sen_are_as_published(string id)
    {
        var (published, trend) = Of(id);
        var (test, line) = (trend.MannKendall, trend.TheilSen);

        Assert.Equal(published.At("mann_kendall/S").GetInt32(), test.S);
        Assert.Equal(published.At("mann_kendall/varS").GetDouble(), test.Variance, 1e-9);
        Published.Exactly(published.At("mann_kendall/z"), test.Z);
        Published.Closely(published.At("mann_kendall/p"), test.P);
        MayLack(published.At("mann_kendall/tau_b"), test.TauB);
        Published.Exactly(published.At("sen/slope"), line.Slope);
        if (!published.GetProperty("sen").TryGetProperty("gilbert_lower", out var low))
            return; // the constant series has its slope only
        MayLack(low, line.Low);
        MayLack(published.At("sen/gilbert_upper"), line.High);
        Published.Exactly(published.At("sen/intercept_median_y_minus_b_median_x"), line.Intercept);
    }

    [Theory]
    [MemberData(nameof(WithSquares))]
    public void Least_squares_are_as_published(string id)
    {
        var (published, trend) = Of(id);

        foreach (var source in new[] { "ols", "nist_certified" })
        {
            if (!published.TryGetProperty(source, out var squares))
                continue;
            Published.Closely(squares.GetProperty("slope").GetDouble(), trend.Ols.Slope, 1e-9);
            Published.Closely(squares.GetProperty("intercept").GetDouble(), trend.Ols.Intercept, 1e-9);
            Published.Closely(squares.GetProperty("r2").GetDouble(), trend.Ols.RSquared, 1e-9);
            Published.Closely(squares.GetProperty("se_slope").GetDouble(), trend.Ols.SlopeSe, 1e-9);
        }
    }

    // R's package works in single precision
    [Theory]
    [MemberData(nameof(Pairs))]
    public void Kendalls_tau_is_as_published(string id)
    {
        var published = Kendalls.GetProperty(id);
        var y = published.At("y").Decimals();
        var x = published.TryGetProperty("x", out var given) ? given.Decimals() : [.. Enumerable.Range(1, y.Length).Select(i => (decimal)i)];

        var test = Trend.Of(x, y).MannKendall;

        Assert.Equal(published.At("S").GetInt32(), test.S);
        Published.Closely(published.At("tau_b").GetDouble(), test.TauB, 1e-5);
        Assert.Equal(1, test.Variance / published.At("varS").GetDouble(), 1e-5);
        Assert.Equal(published.At("p").GetDouble(), test.P.Value!.Value, 1e-5);
    }

    [Fact]
    public void Published_series_are_all_there() => Assert.Equal((6, 7, 5), (WithTest().Count, WithSquares().Count, Pairs().Count));

    [Fact]
    public void Constant_series_is_level_and_says_what_it_has_not()
    {
        var (line, test, squares) = Trend.Of([1, 2, 3, 4], [5, 5, 5, 5]);

        Assert.Equal((0, 0, 1), (line.Slope.Value, test.Z.Value, test.P.Value));
        Assert.Equal(("every value is the same", "every value is the same"), (test.TauB.Why, squares.RSquared.Why));
        Assert.Equal((0, 0), (squares.Slope.Value, squares.SlopeSe.Value));
    }

    [Fact]
    public void Interval_that_the_ranks_do_not_reach_is_not_available()
    {
        var line = Trend.Of([1, 2, 3, 4, 5], [1.26m, 1.27m, 1.12m, 1.16m, 1.03m]).TheilSen;

        Assert.All([line.Low, line.High], end => Assert.Equal("not available: too few points for this confidence", end.Why));
    }

    [Fact]
    public void Points_of_one_day_have_no_trend()
    {
        var (line, test, squares) = Trend.Of([7, 7, 7], [1, 2, 3]);

        Assert.All([line.Slope, line.Low, test.P, squares.Slope], f => Assert.Equal("too few different days (have 1, need 2)", f.Why));
        Assert.Equal("too few points (have 2, need 3)", Trend.Of([1, 2], [1, 2]).Ols.SlopeSe.Why);
    }

    [Fact]
    public void As_many_values_as_days_are_needed() => Assert.Throws<ArgumentException>(() => Trend.Of([1, 2], [1]));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Confidence_lies_between_0_and_1(double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Trend.Of([1, 2], [1, 2], confidence));

    [Fact]
    public void Least_squares_agree_with_MathNet() => Any.Sample(series =>
    {
        double[] x = [.. series.X.Select(v => (double)v)], y = [.. series.Y.Select(v => (double)v)];
        var squares = Trend.Of(series.X, series.Y).Ols;

        var (intercept, slope) = Fit.Line(x, y);
        Assert.Equal(slope, squares.Slope.Value!.Value, 1e-9);
        Assert.Equal(intercept, squares.Intercept.Value!.Value, 1e-9);
        if (Math.Abs(slope) > 1e-9) // of a level line it gives the correlation of rounding errors
            Assert.Equal(GoodnessOfFit.RSquared(x.Select(v => intercept + (slope * v)), y), squares.RSquared.Value!.Value, 1e-6);
    });

    /// <summary>Exact fractions against the same slopes in binary floating point.</summary>
    [Fact]
    public void Theil_Sen_slope_is_the_median_of_all_slopes() => Any.Sample(series =>
    {
        var slopes = Enumerable.Range(0, series.X.Length).SelectMany(i => Enumerable.Range(0, i).Where(j => series.X[i] != series.X[j])
            .Select(j => (double)(series.Y[i] - series.Y[j]) / (double)(series.X[i] - series.X[j]))).Order().ToList();
        var median = (slopes[(slopes.Count - 1) / 2] + slopes[slopes.Count / 2]) / 2;

        Assert.Equal(median, Trend.Of(series.X, series.Y).TheilSen.Slope.Value!.Value, 1e-12);
    });

    [Fact]
    public void Order_of_the_points_does_not_matter() => Any.Sample(series =>
    {
        var backwards = Trend.Of([.. series.X.Reverse()], [.. series.Y.Reverse()]);
        var trend = Trend.Of(series.X, series.Y);

        Assert.Equal(trend.MannKendall, backwards.MannKendall);
        Assert.Equal((trend.TheilSen.Slope, trend.TheilSen.Low), (backwards.TheilSen.Slope, backwards.TheilSen.Low));
    });

    private static void MayLack(JsonElement published, Figure figure)
    {
        if (published.ValueKind == JsonValueKind.Null)
            Assert.NotNull(figure.Why);
        else
            Published.Closely(published, figure);
    }

    private static TheoryData<string> Holding(string method) =>
        [.. Series.EnumerateObject().Where(s => s.Value.TryGetProperty(method, out _)).Select(s => s.Name)];

    private static (JsonElement Published, Trend Trend) Of(string id)
    {
        var published = Series.GetProperty(id);
        return (published, Trend.Of(published.At("x").Decimals(), published.At("y").Decimals()));
    }

    /// <summary>Ten decimals, all zero, are more than the quick way takes: the same numbers then go through exact fractions.</summary>
    [Fact]
    public void Whole_numbers_and_exact_fractions_give_the_same_line() => Any.Sample(points =>
    {
        var (quick, exact) = (Trend.Of(points.X, points.Y).TheilSen, Trend.Of([.. points.X.Select(x => x + 0.0000000000m)], points.Y).TheilSen);

        Assert.Equal(exact.Slope.Value!.Value, quick.Slope.Value!.Value, 1e-12);
        Assert.Equal(exact.Intercept.Value!.Value, quick.Intercept.Value!.Value, 1e-12);
        Assert.Equal(exact.Low.Why, quick.Low.Why);
        Assert.Equal(exact.Low.Value ?? 0, quick.Low.Value ?? 0, 1e-12);
        Assert.Equal(exact.High.Value ?? 0, quick.High.Value ?? 0, 1e-12);
    });
}
