using System.Text.Json;
using CsCheck;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Practice;

/// <summary>The published survival curves of Checks/survival.json, and what holds for every curve.</summary>
public sealed class WaitCurveTests
{
    private static readonly JsonElement Curves = Published.Read("survival.json");

    private static readonly Gen<TimedTrial> Trial = Gen.Select(Gen.Int[0, 40], Gen.Bool, Gen.Int[0, 2])
        .Select((time, answered, group) => new TimedTrial(time / 4m, answered, "ABC"[group].ToString()));

    public static TheoryData<string> WithTable() => [.. Curves.EnumerateObject().Where(c => c.Value.TryGetProperty("table", out _)).Select(c => c.Name)];

    [Fact]
    public void Published_curves_are_all_there() => Assert.Equal(4, WithTable().Count);

    [Theory]
    [MemberData(nameof(WithTable))]
    public void Steps_are_as_published(string id)
    {
        var published = Curves.GetProperty(id).GetProperty("table").EnumerateArray().Where(row => row.At("n_event").GetInt32() > 0).ToList();
        var steps = Curve(id).Steps;

        Assert.Equal(published.Select(row => (row.At("time").GetDecimal(), row.At("n_risk").GetInt32(), row.At("n_event").GetInt32())),
            steps.Select(s => (s.Seconds, s.AtRisk, s.Answered)));
        foreach (var (row, step) in published.Zip(steps))
        {
            Assert.Equal(row.At("surv").GetDouble(), step.Waiting, 1e-9);
            MayLack(row.At("se_greenwood"), step.Se);
            MayLack(row.At("loglog_lower"), step.Low);
            MayLack(row.At("loglog_upper"), step.High);
        }
    }

    [Theory]
    [MemberData(nameof(WithTable))]
    public void Median_and_its_limits_are_as_published(string id)
    {
        var median = Curve(id).Median;
        var quantiles = Curves.GetProperty(id).At("quantiles/log-log");

        Published.Exactly(Curves.At(id + "/median_smallest_t_with_S_le_half"), median.Value);
        MayLack(quantiles.GetProperty("lower")[1], median.Low);
        MayLack(quantiles.GetProperty("upper")[1], median.High);
    }

    [Theory]
    [InlineData("KM01_6MP", "KM01_6MP/rmst")]
    [InlineData("KM01_6MP", "KM01b_6MP_tau23")]
    [InlineData("KM02_placebo", "KM02_placebo/rmst")]
    [InlineData("KM04_latency", "KM04_latency/rmst")]
    [InlineData("KM06_tie_event_and_censor_same_time", "KM06_tie_event_and_censor_same_time/rmst")]
    public void Restricted_mean_is_as_published(string id, string path)
    {
        var published = Curves.At(path);

        var (mean, se) = Curve(id).RestrictedMean(published.At("tau").GetDecimal());

        Published.Closely(published.At("rmean"), mean);
        Published.Closely(published.At("se"), se);
    }

    [Fact]
    public void Log_rank_is_as_published()
    {
        var published = Curves.GetProperty("KM03_logrank");
        TimedTrial[] trials =
        [
            .. Trials(Curves.GetProperty("KM01_6MP")).Select(t => t with { Group = "6-MP" }),
            .. Trials(Curves.GetProperty("KM02_placebo")).Select(t => t with { Group = "control" }),
        ];

        var test = LogRank.Of(trials);

        Published.Closely(published.At("chisq"), test.ChiSquare);
        Published.Closely(published.At("p"), test.P);
        Assert.Equal(1, test.Df);
    }

    [Fact]
    public void Curve_without_a_response_stays_at_the_top()
    {
        var curve = Curve("KM05_all_censored");

        Assert.Empty(curve.Steps);
        Assert.Equal("not reached within the waits tried", curve.Median.Value.Why);
        Assert.Equal((5, 0), (curve.RestrictedMean(5).Value.Value, curve.SharedBy(5).Value.Value));
    }

    [Fact]
    public void Share_that_responded_is_read_off_the_step_before()
    {
        var curve = Curve("KM04_latency"); // 0.8, 1.2, 2, 2, 2.7, 3.4, 4.1, three prompted at 5

        Assert.Equal([0, 0.1, 0.4, 0.4, 0.7], new[] { 0.7m, 0.8m, 2, 2.5m, 5 }.Select(s => Math.Round(curve.SharedBy(s).Value.Value!.Value, 9)));
        var by = curve.SharedBy(2);
        Published.Closely(1 - 0.8272209670285, by.Low);
        Published.Closely(1 - 0.2526688970039, by.High);
        Assert.Equal("no trial waited that long", curve.SharedBy(5.1m).Value.Why);
        Assert.Equal("no response by then", curve.SharedBy(0.7m).Low.Why);
    }

    [Fact]
    public void Past_the_last_response_of_all_everybody_has_responded()
    {
        var curve = WaitCurve.Of([new(1, true), new(2, true)]);

        Assert.Equal((1, 1.5), (curve.SharedBy(60).Value.Value, curve.RestrictedMean(60).Value.Value));
        Assert.Equal("nobody is left waiting", curve.SharedBy(60).Low.Why);
    }

    [Fact]
    public void Curve_of_no_trials_says_so()
    {
        var curve = WaitCurve.Of([]);

        Assert.Equal((0, 0), (curve.Trials, curve.Longest));
        Assert.All([curve.Median.Value, curve.SharedBy(3).Value, curve.RestrictedMean(3).Value], figure => Assert.Equal("no trials", figure.Why));
    }

    [Theory]
    [InlineData(10, 1)] // at 7.5 s exactly the last quarter begins
    [InlineData(10.1, 0)]
    [InlineData(4, 3)]
    public void Responses_in_the_last_quarter_of_the_wait_are_counted(double wait, int late) =>
        Assert.Equal(late, WaitCurve.Of([new(3, true), new(7.5m, true), new(6, true), new(9, false)]).InLastQuarterOf((decimal)wait));

    [Fact]
    public void One_group_has_nothing_to_be_compared_with()
    {
        Assert.Equal("needs two groups with trials to compare", LogRank.Of([new(1, true, "A"), new(2, false, "A")]).ChiSquare.Why);
        Assert.Equal("needs two groups with trials to compare", LogRank.Of([new(1, false, "A"), new(2, true, "B")]).P.Why); // A is gone before the response
        Assert.Throws<ArgumentException>(() => LogRank.Of([new(1, true)]));
    }

    [Fact]
    public void Negative_time_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => WaitCurve.Of([new(-1, true)]));

    /// <summary>Without help in between, the curve is the plain share of trials that took longer.</summary>
    [Fact]
    public void Curve_without_censoring_is_the_plain_share() => Trial.Array[1, 30].Sample(trials =>
    {
        TimedTrial[] answered = [.. trials.Select(t => t with { Answered = true })];

        foreach (var step in WaitCurve.Of(answered).Steps)
            Assert.Equal((double)answered.Count(t => t.Seconds > step.Seconds) / answered.Length, step.Waiting, 1e-12);
    });

    /// <summary>Efron's view: a censored trial hands its share on to those still waiting, later times and censorings at the same time among them.</summary>
    [Fact]
    public void Curve_hands_the_share_of_each_censored_trial_on() => Trial.Array[1, 30].Sample(trials =>
    {
        TimedTrial[] order = [.. trials.OrderBy(t => t.Seconds).ThenBy(t => t.Answered ? 0 : 1)];
        var mass = Enumerable.Repeat(1.0 / order.Length, order.Length).ToArray();
        for (var i = 0; i < order.Length - 1; i++)
        {
            if (order[i].Answered)
                continue;
            for (var j = i + 1; j < order.Length; j++)
                mass[j] += mass[i] / (order.Length - i - 1);
            mass[i] = 0;
        }

        foreach (var step in WaitCurve.Of(trials).Steps)
        {
            var left = order.Select((t, i) => t.Answered && t.Seconds <= step.Seconds ? mass[i] : 0).Sum();
            Assert.Equal(1 - left, step.Waiting, 1e-9);
        }
    });

    [Fact]
    public void Restricted_mean_is_the_area_under_the_curve() => Trial.Array[1, 30].Sample(trials =>
    {
        var curve = WaitCurve.Of(trials);
        var area = Enumerable.Range(0, (int)(curve.Longest * 4)).Sum(quarter =>
            (curve.Steps.LastOrDefault(s => s.Seconds <= quarter / 4m)?.Waiting ?? 1) / 4);

        Assert.Equal(area, curve.RestrictedMean(curve.Longest).Value.Value!.Value, 1e-9);
    });

    [Fact]
    public void Names_of_groups_and_order_of_trials_do_not_matter_to_the_log_rank() => Trial.Array[6, 40].Sample(trials =>
    {
        var test = LogRank.Of(trials);
        var other = LogRank.Of([.. trials.Reverse().Select(t => t with { Group = t.Group == "A" ? "Z" : t.Group })]);

        Assert.Equal((test.Df, test.ChiSquare.Why), (other.Df, other.ChiSquare.Why));
        if (test.ChiSquare.Value is { } value)
        {
            Assert.Equal(value, other.ChiSquare.Value!.Value, 1e-6 * Math.Max(1, value));
            Assert.InRange(test.P.Value!.Value, 0, 1);
        }
    });

    [Fact]
    public void Curve_is_read_off_at_whole_seconds()
    {
        var curve = WaitCurve.Of([new(0.8m, true), new(2, true), new(2.4m, false), new(3.9m, true)]);

        Assert.Equal([(0, 4, 0.0), (1, 3, 0.25), (2, 2, 0.5), (3, 1, 0.5)], curve.Readings().Select(r => (r.Seconds, r.Left, Math.Round(r.Share.Value.Value!.Value, 9))));
        Assert.Equal(1, curve.At(4).Share.Value.Value); // the last one answered: nobody is left waiting
        Assert.InRange(WaitCurve.Of([new(400, false)]).Readings().Count(), 2, WaitCurve.MostReadings + 1);
    }

    private static WaitCurve Curve(string id) => WaitCurve.Of(Trials(Curves.GetProperty(id)));

    private static TimedTrial[] Trials(JsonElement published) =>
        [.. published.At("time").Decimals().Zip(published.At("status").Numbers(), (time, status) => new TimedTrial(time, status == 1))];

    private static void MayLack(JsonElement published, Figure figure)
    {
        if (published.ValueKind == JsonValueKind.Null)
            Assert.NotNull(figure.Why);
        else
            Published.Closely(published, figure);
    }
}
