using System.Text.Json;
using System.Text.Json.Nodes;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>Case files of the statistics: every field of the answer, and what is wrong with a bad one.</summary>
public sealed class StatisticsCaseTests
{
    [Fact]
    public void Series_answers_each_effect()
    {
        var answer = WorkOut("""{"kind": "series", "baseline": [3, 3, 4, 5], "teaching": [4, 5, 6, 7, 7], "better": "up"}""");

        Assert.Equal(["nap", "tau", "tauU", "baselineCorrectedTau", "logResponseRatio", "pnd", "pem", "ird"], Names(answer));
        Assert.Equal(["value", "se", "low", "high"], Names(answer["nap"]!));
        Assert.Equal((0.9, 0.8, 0.55), (Number(answer["nap"]!["value"]), Number(answer["tau"]!["value"]), Number(answer["tauU"]!["value"])));
        Assert.Equal(["applies", "value", "se", "sOverMn", "baselineSlope", "baselineP"], Names(answer["baselineCorrectedTau"]!));
        Assert.Equal((0.6, 1, 0.55), (Number(answer["pnd"]), Number(answer["pem"]), Number(answer["ird"])));
        Assert.Equal(0.433007, Number(answer["logResponseRatio"]!["value"]), 1e-6);
    }

    [Fact]
    public void Series_that_is_too_short_is_null_with_a_why()
    {
        var answer = WorkOut("""{"kind": "series", "baseline": [3, 3], "teaching": [4, 5, 6], "better": "down", "confidence": 0.9}""");

        Assert.Null(answer["nap"]!["value"]);
        Assert.Equal("value, se, low, high: too few points (have 2, need 3)", (string?)answer["nap"]!["why"]);
        Assert.Null(answer["baselineCorrectedTau"]!["applies"]);
        Assert.Equal("pnd, pem, ird: too few points (have 2, need 3)", (string?)answer["why"]);
    }

    [Fact]
    public void Trend_answers_three_ways()
    {
        var answer = WorkOut("""{"kind": "trend", "x": [1, 2, 3, 4, 5], "y": [1.26, 1.27, 1.12, 1.16, 1.03]}""");

        Assert.Equal(["theilSen", "mannKendall", "ols"], Names(answer));
        Assert.Equal(-0.05625, Number(answer["theilSen"]!["slope"]), 1e-12);
        Assert.Null(answer["theilSen"]!["low"]);
        Assert.Equal("low, high: not available: too few points for this confidence", (string?)answer["theilSen"]!["why"]);
        Assert.Equal(["s", "variance", "z", "p", "tauB"], Names(answer["mannKendall"]!));
        Assert.Equal((-6, -0.6), ((int)answer["mannKendall"]!["s"]!, Math.Round(Number(answer["mannKendall"]!["tauB"]), 12)));
        Assert.Equal(["slope", "intercept", "rSquared", "slopeSe"], Names(answer["ols"]!));
    }

    [Fact]
    public void Aimline_answers_line_question_and_projected_date()
    {
        var answer = WorkOut("""
            {"kind": "aimline", "baselineDate": "2026-09-01", "baselineValue": 12.0, "targetDate": "2026-12-10", "target": 2.0, "better": "down",
             "probes": [{"date": "2026-09-22", "value": 10}, {"date": "2026-09-08", "value": 12}, {"date": "2026-09-15", "value": 11}],
             "inARow": 3, "at": ["2026-10-01", "2026-11-15"]}
            """);

        Assert.Equal((-0.1, -0.7), (Number(answer["perDay"]), Number(answer["perWeek"])));
        Assert.Equal([("2026-10-01", 9.0), ("2026-11-15", 4.5)], answer["at"]!.AsArray().Select(a => ((string?)a!["date"], Number(a["value"]))));
        Assert.Equal("changeTeaching", (string?)answer["decision"]); // each above the line, where less is better
        Assert.Equal("2026-11-17", (string?)answer["projectedDate"]); // a seventh a day from 12 on 8 September: 70 days
    }

    [Fact]
    public void Aimline_without_probes_has_no_projected_date_and_says_why()
    {
        var answer = WorkOut("""
            {"kind": "aimline", "baselineDate": "2026-09-01", "baselineValue": 0, "targetDate": "2026-12-10", "target": 2, "better": "up"}
            """);

        Assert.Equal(("tooFew", null), ((string?)answer["decision"], (string?)answer["projectedDate"]));
        Assert.Equal("projectedDate: too few points (have 0, need 3)", (string?)answer["why"]);
    }

    [Fact]
    public void Latency_answers_curve_median_mean_and_comparison()
    {
        var answer = WorkOut("""
            {"kind": "latency", "upTo": 5, "trials": [{"seconds": 1.2, "answered": true, "group": "left"}, {"seconds": 2, "answered": true, "group": "right"},
             {"seconds": 2, "answered": false, "group": "left"}, {"seconds": 5, "answered": false, "group": "right"}]}
            """);

        Assert.Equal([1.2, 2], answer["steps"]!.AsArray().Select(s => Number(s!["seconds"])));
        Assert.Equal(["seconds", "atRisk", "answered", "waiting", "se", "low", "high"], Names(answer["steps"]![0]!));
        Assert.Equal(0.5, Number(answer["steps"]![1]!["waiting"]), 1e-12);
        Assert.Equal(2, Number(answer["median"]));
        Assert.Equal((5, 3.3), (Number(answer["restrictedMean"]!["upTo"]), Math.Round(Number(answer["restrictedMean"]!["value"]), 9)));
        Assert.Equal(["df", "chiSquare", "p"], Names(answer["logRank"]!));
    }

    [Fact]
    public void Latency_without_groups_or_responses_answers_what_there_is()
    {
        var answer = WorkOut("""{"kind": "latency", "trials": [{"seconds": 5, "answered": false}, {"seconds": 4, "answered": false}]}""");

        Assert.Empty(answer["steps"]!.AsArray());
        Assert.Null(answer["median"]);
        Assert.Equal("median: not reached within the waits tried", (string?)answer["why"]);
        Assert.Equal((5, 5), (Number(answer["restrictedMean"]!["upTo"]), Number(answer["restrictedMean"]!["value"])));
        Assert.Null(answer["logRank"]);
    }

    [Fact]
    public void Agreement_answers_from_codes_and_from_a_table()
    {
        var codes = WorkOut("""{"kind": "agreement", "first": ["+", "+", "-", "+"], "second": ["+", "-", "-", "+"]}""");
        var table = WorkOut("""{"kind": "agreement", "table": [[88, 14, 18], [10, 40, 10], [2, 6, 12]], "weights": "linear"}""");

        Assert.Equal(["trials", "agree", "exact", "chance", "kappa", "kappaSe"], Names(codes));
        Assert.Equal((4, 3, 0.75, 0.5), ((int)codes["trials"]!, (int)codes["agree"]!, Number(codes["exact"]), Number(codes["kappa"])));
        Assert.Equal((0.7, 0.41), (Math.Round(Number(table["exact"]), 12), Math.Round(Number(table["chance"]), 12)));
        Assert.Equal(0.473684, Number(table["kappa"]), 1e-6);
        Assert.Equal("kappa, kappaSe: both used one code throughout",
            (string?)WorkOut("""{"kind": "agreement", "first": [1, 1], "second": [1, 1], "weights": "quadratic"}""")["why"]);
    }

    [Fact]
    public void Codes_that_are_numbers_keep_their_order_under_weights()
    {
        // as text 10 would stand before 2, and kappa would be 0.25
        var answer = WorkOut("""{"kind": "agreement", "first": [1, 2, 10, 2], "second": [1, 1, 10, 10], "weights": "linear"}""");

        Assert.Equal(0.5, Number(answer["kappa"]), 1e-12);
    }

    [Fact]
    public void Counts_answer_in_percent()
    {
        var answer = WorkOut("""{"kind": "counts", "first": [3, 0, 2, 4, 1], "second": [2, 0, 2, 5, 1]}""");

        Assert.Equal(["total", "meanPerInterval", "exactPerInterval", "scored", "unscored"], Names(answer));
        Assert.Equal((100, 60, 100, 100), (Number(answer["total"]), Number(answer["exactPerInterval"]), Number(answer["scored"]), Number(answer["unscored"])));
        Assert.Equal("scored: nobody scored an interval", (string?)WorkOut("""{"kind": "counts", "first": [0], "second": [0]}""")["why"]);
    }

    [Fact]
    public void Proportion_answers_with_its_interval()
    {
        var answer = WorkOut("""{"kind": "proportion", "successes": 3, "trials": 10, "confidence": 0.9}""");

        Assert.Equal((0.3, 0.126877, 0.5583), (Number(answer["value"]), Math.Round(Number(answer["low"]), 6), Math.Round(Number(answer["high"]), 6)));
        Assert.Equal("value, low, high: no trials", (string?)WorkOut("""{"kind": "proportion", "successes": 0, "trials": 0}""")["why"]);
    }

    [Theory]
    [InlineData("""{"kind": "series", "baseline": [1, "2"], "teaching": [1], "better": "up"}""", "baseline[1]: must be a number")]
    [InlineData("""{"kind": "series", "baseline": [1], "teaching": [1e30], "better": "up"}""", "teaching[0]: must be a number")]
    [InlineData("""{"kind": "series", "baseline": [1], "teaching": [1e13], "better": "up"}""",
        "teaching[0]: must be from -1000000000000 to 1000000000000, not 10000000000000")]
    [InlineData("""{"kind": "series", "baseline": [1], "teaching": [2], "better": "more"}""", "better: must be one of up, down")]
    [InlineData("""{"kind": "series", "baseline": [1], "teaching": [2], "better": "up", "confidence": 1}""", "confidence: must lie between 0 and 1")]
    [InlineData("""{"kind": "trend", "x": [1, 2], "y": [1]}""", "y: must hold as many values as x")]
    [InlineData("""{"kind": "trend", "x": [], "y": []}""", "x: needs 1 or more")]
    [InlineData("""{"kind": "aimline", "baselineDate": "2026-09-01", "baselineValue": 1, "targetDate": "2026-09-01", "target": 2, "better": "up"}""",
        "targetDate: must be after baselineDate")]
    [InlineData("""{"kind": "aimline", "baselineDate": "2026-09-01", "baselineValue": 1, "targetDate": "2026-09-02", "target": 2, "better": "up", "inARow": 0}""",
        "inARow: must be from 1 to 1000, not 0")]
    [InlineData("""{"kind": "latency", "trials": [{"seconds": -1, "answered": true}]}""",
        "trials[0].seconds: must be from 0 to 1000000000000, not -1")]
    [InlineData("""{"kind": "latency", "trials": [{"seconds": 1, "answered": 1}]}""", "trials[0].answered: must be true or false")]
    [InlineData("""{"kind": "latency", "trials": [{"seconds": 1, "answered": true, "group": "A"}, {"seconds": 1, "answered": true}]}""",
        "trials: give a group for some trials and none for the one at place 1")]
    [InlineData("""{"kind": "agreement", "first": [1], "second": [1, 2]}""", "second: must hold as many codes as first")]
    [InlineData("""{"kind": "agreement", "table": [[1, 2], [3]]}""", "table: must have as many columns as rows")]
    [InlineData("""{"kind": "agreement", "table": [[1]], "first": [1]}""", "table: stands beside first and second; give one or the other")]
    [InlineData("""{"kind": "agreement", "first": [1.5], "second": [1]}""", "first[0]: must be a whole number")]
    [InlineData("""{"kind": "agreement", "table": [[1]], "weights": "cubic"}""", "weights: must be one of none, linear, quadratic")]
    [InlineData("""{"kind": "counts", "first": [1], "second": [-1]}""", "second[0]: must be from 0 to 100000, not -1")]
    [InlineData("""{"kind": "counts", "first": [1], "second": []}""", "second: must hold as many counts as first")]
    [InlineData("""{"kind": "proportion", "successes": 3, "trials": 2}""", "successes: must not be more than trials")]
    [InlineData("""{"kind": "proportion", "successes": 3, "of": 2}""", "of: is not known here")]
    public void Wrong_field_is_named_with_what_is_wrong(string file, string message) =>
        Assert.Equal(message, Assert.Throws<CaseException>(() => CaseFile.WorkOut(file)).Message);

    [Fact]
    public void Published_series_come_out_of_a_case_file_as_well()
    {
        var published = Published.Read("single_case.json")[0];
        var file = new JsonObject
        {
            ["kind"] = "series",
            ["baseline"] = JsonNode.Parse(published.At("A").GetRawText()),
            ["teaching"] = JsonNode.Parse(published.At("B").GetRawText()),
            ["better"] = "up",
        };

        Assert.Equal(published.At("NAP/CI_lower").GetDouble(), Number(WorkOut(file.ToJsonString())["nap"]!["low"]), 1e-9);
    }

    private static JsonNode WorkOut(string file) => JsonNode.Parse(CaseFile.WorkOut(file))!;

    private static IEnumerable<string> Names(JsonNode node) => node.AsObject().Select(p => p.Key);

    private static double Number(JsonNode? node) => (double)node!;
}
