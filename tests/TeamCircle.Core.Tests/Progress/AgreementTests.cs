using System.Text.Json;
using CsCheck;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>The published tables of Checks/kappa.json and the observations of Checks/misc.json.</summary>
public sealed class AgreementTests
{
    private static readonly JsonElement Tables = Published.Read("kappa.json");
    private static readonly JsonElement Misc = Published.Read("misc.json");

    public static TheoryData<string> Ids() => [.. Tables.EnumerateObject().Select(t => t.Name)];

    [Fact]
    public void Published_tables_are_all_there() => Assert.Equal(7, Ids().Count);

    [Theory]
    [MemberData(nameof(Ids))]
    public void Kappa_is_as_published(string id)
    {
        var published = Tables.GetProperty(id);
        var agreement = Agreement.OfTable(Table(published));

        Assert.Equal(published.At("n").GetInt32(), agreement.Trials);
        Published.Exactly(published.At("po"), agreement.Exact);
        Published.Exactly(published.At("pe"), agreement.Chance);
        Published.Exactly(published.At("kappa"), agreement.Kappa);
        Published.Closely(published.At("ase_fleiss1969"), agreement.KappaSe);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Weighted_kappa_is_as_published(string id)
    {
        var published = Tables.GetProperty(id);

        foreach (var (weights, name) in new[] { (Weights.Linear, "weighted_linear"), (Weights.Quadratic, "weighted_quadratic") })
        {
            var agreement = Agreement.OfTable(Table(published), weights);
            Published.Exactly(published.At(name + "/kappa_w"), agreement.Kappa);
            Published.Closely(published.At(name + "/ase_fleiss1969"), agreement.KappaSe);
            Published.Exactly(published.At("po"), agreement.Exact);
        }
    }

    [Fact]
    public void Trial_by_trial_agreement_is_as_published()
    {
        var published = Misc.GetProperty("IO-04_trials");

        var agreement = Agreement.Of(published.At("obs1").GetString()!.ToCharArray(), published.At("obs2").GetString()!.ToCharArray());

        Assert.Equal((10, 8), (agreement.Trials, agreement.Agree));
        Assert.Equal(published.At("point_by_point").GetDouble() / 100, agreement.Exact.Value!.Value, 1e-12);
    }

    [Theory]
    [InlineData("IO-02")]
    [InlineData("IO-06")]
    public void Interval_by_interval_agreement_is_as_published(string id)
    {
        var published = Misc.GetProperty(id);

        var agreement = Agreement.Of(published.At("obs1").Numbers(), published.At("obs2").Numbers());

        Assert.Equal((published.At("n").GetInt32(), published.At("agree").GetInt32()), (agreement.Trials, agreement.Agree));
        Assert.Equal(published.At("interval_by_interval").GetDouble() / 100, agreement.Exact.Value!.Value, 1e-12);
    }

    [Fact]
    public void Kappa_of_one_code_throughout_is_not_computed()
    {
        var agreement = Agreement.Of([0, 0, 0], [0, 0, 0]);

        Assert.Equal((1, 1), (agreement.Exact.Value, agreement.Chance.Value));
        Assert.Equal(("both used one code throughout", "both used one code throughout"), (agreement.Kappa.Why, agreement.KappaSe.Why));
        Assert.Equal("no trials", Agreement.Of<int>([], []).Exact.Why);
    }

    [Theory]
    [InlineData("IO-01", null)]
    [InlineData("IO-03", null)]
    [InlineData("IO-05", "duration")]
    [InlineData("IO-02", "intervals")]
    [InlineData("IO-06", "intervals")]
    public void Counts_agree_as_published(string id, string? of)
    {
        var published = Misc.GetProperty(id);
        var agreement = CountAgreement.Of(published.At("obs1").Numbers(), published.At("obs2").Numbers());
        (string Name, Figure Figure)[] figures = of switch
        {
            "duration" => [("total_duration", agreement.Total), ("mean_duration_per_occurrence", agreement.MeanPerInterval)],
            "intervals" => [("scored_interval", agreement.Scored), ("unscored_interval", agreement.Unscored)],
            _ => [("total_count", agreement.Total), ("mean_count_per_interval", agreement.MeanPerInterval), ("exact_count_per_interval", agreement.ExactPerInterval)],
        };

        foreach (var (name, figure) in figures)
        {
            if (published.GetProperty(name) is { ValueKind: JsonValueKind.Number } value)
                Published.Exactly(value, figure);
            else
                Assert.Equal("nobody scored an interval", figure.Why);
        }
    }

    [Fact]
    public void What_both_scored_throughout_leaves_nothing_unscored() =>
        Assert.Equal("both scored every interval", CountAgreement.Of([1, 2], [2, 2]).Unscored.Why);

    [Fact]
    public void Two_observers_code_the_same_trials()
    {
        Assert.Throws<ArgumentException>(() => Agreement.Of([1, 2], [1]));
        Assert.Throws<ArgumentException>(() => Agreement.OfTable([[1, 2], [3]]));
        Assert.Throws<ArgumentException>(() => CountAgreement.Of([1, 2], [1]));
        Assert.Throws<ArgumentException>(() => CountAgreement.Of([1, -2], [1, 2]));
    }

    /// <summary>Linear weights make kappa one less a ratio of mean distances, which is another way to it.</summary>
    [Fact]
    public void Weighted_kappa_is_one_less_the_distance_over_that_of_chance() => Gen.Int[0, 3].Array[40].Sample(codes =>
    {
        int[] first = [0, 1, 2, 3, .. codes[..20]], second = [0, 1, 2, 3, .. codes[20..]];
        var seen = first.Zip(second, (a, b) => Math.Abs(a - b)).Average();
        var chance = first.SelectMany(a => second.Select(b => Math.Abs(a - b))).Average();

        Assert.Equal(1 - (seen / chance), Agreement.Of(first, second, Weights.Linear).Kappa.Value!.Value, 1e-9);
    });

    private static int[][] Table(JsonElement published) => [.. published.At("matrix").EnumerateArray().Select(row => row.Numbers())];
}
