using System.Text.Json;
using CsCheck;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>The published series of Checks/single_case.json, and what holds for every series.</summary>
public sealed class OverlapTests
{
    private static readonly JsonElement Series = Published.Read("single_case.json");

    private static readonly Gen<(decimal[] Before, decimal[] During)> Any =
        from before in Gen.Int[0, 12].Array[3, 9]
        from during in Gen.Int[0, 12].Array[3, 9]
        select (before.Select(v => v / 4m).ToArray(), during.Select(v => v / 4m).ToArray());

    public static TheoryData<string> Ids() => [.. Series.EnumerateArray().Select(s => s.GetProperty("id").GetString()!)];

    [Fact]
    public void Published_series_are_all_there() => Assert.Equal(19, Ids().Count);

    [Theory]
    [MemberData(nameof(Ids))]
    public void Nap_is_as_published(string id)
    {
        var (published, overlap) = Of(id);

        Published.Exactly(published.At("NAP/Est"), overlap.Nap.Value);
        Published.Closely(published.At("NAP/SE"), overlap.Nap.Se);
        Published.Closely(published.At("NAP/CI_lower"), overlap.Nap.Low);
        Published.Closely(published.At("NAP/CI_upper"), overlap.Nap.High);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Shares_of_pairs_and_points_are_as_published(string id)
    {
        var (published, overlap) = Of(id);

        Published.Exactly(published.At("Tau/Est"), overlap.Tau);
        Published.Exactly(published.At("Tau_U/Est"), overlap.TauU);
        Published.Exactly(published.At("PND/Est"), overlap.Pnd);
        Published.Exactly(published.At("PEM/Est"), overlap.Pem);
        Published.Exactly(published.At("IRD/Est"), overlap.Ird);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Baseline_corrected_tau_is_as_worked_out_in_exact_fractions(string id)
    {
        var (published, overlap) = Of(id);
        var corrected = overlap.BaselineCorrectedTau;

        Published.Exactly(published.At("Tau_BC/tau_b_corrected_Tarlow"), corrected.Value);
        Published.Closely(published.At("Tau_BC/se_Tarlow"), corrected.Se);
        Published.Exactly(published.At("Tau_BC/tau_a_corrected_S_over_mn"), corrected.SOverMn);
        Published.Exactly(published.At("Tau_BC/theil_sen_slope_A"), corrected.BaselineSlope);
        Published.Closely(published.At("baseline_trend_kendall/p_normal_continuity"), corrected.BaselineP);
        Assert.Equal(published.At("Tau_BC/rule_Tarlow_apply_correction_if_baseline_p<=.05").GetBoolean(), corrected.Applies);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Log_response_ratio_is_as_published(string id)
    {
        var (published, overlap) = Of(id);

        Published.Closely(published.At("LRR_bias_corrected/Est"), overlap.LogResponseRatio.Value);
        Published.Closely(published.At("LRR_bias_corrected/SE"), overlap.LogResponseRatio.Se);
    }

    [Fact]
    public void Too_few_points_say_so_in_place_of_every_value()
    {
        var overlap = Overlap.Of([3, 4], [5, 6, 7], Better.Up);

        Figure[] all =
        [
            overlap.Nap.Value, overlap.Nap.Se, overlap.Nap.Low, overlap.Nap.High, overlap.Tau, overlap.TauU, overlap.BaselineCorrectedTau.Value,
            overlap.BaselineCorrectedTau.BaselineP, overlap.Pnd, overlap.Pem, overlap.Ird, overlap.LogResponseRatio.Value,
        ];
        Assert.All(all, figure => Assert.Equal((null, "too few points (have 2, need 3)"), (figure.Value, figure.Why)));
        Assert.Null(overlap.BaselineCorrectedTau.Applies);
        Assert.Equal("too few points (have 1, need 3)", Overlap.Of([3, 4, 4], [5], Better.Up).Tau.Why);
    }

    [Fact]
    public void Ratio_of_means_needs_means_above_0()
    {
        var overlap = Overlap.Of([0, 0, 0], [1, 2, 3], Better.Up);

        Assert.Equal("needs a mean above 0 before and during teaching", overlap.LogResponseRatio.Value.Why);
        Assert.Equal(1, overlap.Tau.Value);
    }

    [Fact]
    public void Trend_that_goes_on_as_it_was_leaves_nothing_once_corrected()
    {
        // 0.1 and 0.3 are no binary fractions, and yet all that is left must tie
        var corrected = Overlap.Of([0.1m, 0.4m, 0.7m, 1.0m], [1.3m, 1.6m, 1.9m], Better.Up).BaselineCorrectedTau;

        Assert.Equal((0, 0), (corrected.Value.Value, corrected.SOverMn.Value));
    }

    /// <summary>The U of Mann and Whitney from ranks, which is another way to the same pairs.</summary>
    [Fact]
    public void Nap_is_the_rank_sums_share() => Any.Sample(phases =>
    {
        var (before, during) = phases;
        var all = before.Concat(during).ToArray();
        var ranks = during.Sum(d => all.Count(v => v < d) + ((all.Count(v => v == d) + 1) / 2.0));
        var u = ranks - (during.Length * (during.Length + 1) / 2.0);

        Assert.Equal(u / (before.Length * during.Length), Overlap.Of(before, during, Better.Up).Nap.Value.Value!.Value, 1e-12);
    });

    [Fact]
    public void Worse_in_one_direction_is_better_in_the_other() => Any.Sample(phases =>
    {
        var up = Overlap.Of(phases.Before, phases.During, Better.Up);
        var down = Overlap.Of([.. phases.Before.Select(v => -v)], [.. phases.During.Select(v => -v)], Better.Down);

        Assert.Equal((up.Nap, up.Tau, up.TauU, up.Pnd, up.Pem, up.Ird), (down.Nap, down.Tau, down.TauU, down.Pnd, down.Pem, down.Ird));
        Assert.Equal(up.BaselineCorrectedTau with { BaselineSlope = up.Tau }, down.BaselineCorrectedTau with { BaselineSlope = up.Tau });
    });

    /// <summary>Tries each way of taking points away.</summary>
    [Fact]
    public void Ird_takes_the_fewest_points_away() => Any.Sample(phases =>
    {
        var (before, during) = phases;
        var all = before.Length + during.Length;
        var fewest = Enumerable.Range(0, 1 << all)
            .Where(taken => before.Where((_, i) => (taken >> i & 1) == 0).DefaultIfEmpty(decimal.MinValue).Max()
                < during.Where((_, i) => (taken >> (before.Length + i) & 1) == 0).DefaultIfEmpty(decimal.MaxValue).Min())
            .Min(taken => System.Numerics.BitOperations.PopCount((uint)taken));

        Assert.Equal(1 - (fewest / 2.0 * ((1.0 / before.Length) + (1.0 / during.Length))), Overlap.Of(before, during, Better.Up).Ird.Value!.Value, 1e-12);
    }, iter: 40);

    [Fact]
    public void Interval_holds_the_value_and_lies_on_the_scale() => Any.Sample(phases =>
    {
        var nap = Overlap.Of(phases.Before, phases.During, Better.Up).Nap;

        Assert.InRange(nap.Value.Value!.Value, nap.Low.Value!.Value, nap.High.Value!.Value);
        Assert.InRange(nap.Low.Value.Value, 0, 1);
        Assert.InRange(nap.High.Value.Value, 0, 1);
    });

    private static (JsonElement Published, Overlap Overlap) Of(string id)
    {
        var published = Series.EnumerateArray().Single(s => s.GetProperty("id").GetString() == id);
        var better = published.GetProperty("improvement").GetString() == "increase" ? Better.Up : Better.Down;
        return (published, Overlap.Of(published.At("A").Decimals(), published.At("B").Decimals(), better));
    }
}
