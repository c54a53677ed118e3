using System.Text.Json;
using CsCheck;
using NodaTime.Text;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Tests.Checks;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Progress;

/// <summary>Aimlines, what they ask, and projected days: Checks/misc.json and cases by hand.</summary>
public sealed class AimlineTests
{
    private static readonly JsonElement Misc = Published.Read("misc.json");

    public static TheoryData<string> DecisionIds() => [.. Misc.EnumerateObject().Select(m => m.Name).Where(n => n.StartsWith("DR-", StringComparison.Ordinal))];

    [Theory]
    [InlineData("AI-01", Better.Up)]
    [InlineData("AI-03_decreasing", Better.Down)]
    public void Aimline_is_straight_as_worked_out(string id, Better better)
    {
        var published = Misc.GetProperty(id);
        var line = new Aimline(
            DayOf(published, "baseline_date"), published.At("baseline").GetDecimal(), DayOf(published, "goal_date"), published.At("goal").GetDecimal(), better);

        Assert.Equal(published.At("slope_per_day").GetDouble(), line.PerDay, 1e-9);
        Assert.Equal(published.At("slope_per_week").GetDouble(), line.PerWeek, 1e-9);
        foreach (var at in published.At("at").EnumerateObject())
            Assert.Equal(at.Value.GetDouble(), line.At(DayOf(at.Name)), 1e-9);
    }

    [Fact]
    public void Aimline_of_weeks_is_as_worked_out()
    {
        var published = Misc.GetProperty("AI-02_cbm_36wk");
        var line = new Aimline(
            1000, published.At("baseline").GetDecimal(), 1000 + (7 * published.At("weeks").GetInt32()), published.At("goal").GetDecimal(), Better.Up);

        Assert.Equal(published.At("slope_per_week").GetDouble(), line.PerWeek, 1e-9);
        foreach (var week in published.At("at_week").EnumerateObject())
            Assert.Equal(week.Value.GetDouble(), line.At(1000 + (7 * int.Parse(week.Name, System.Globalization.CultureInfo.InvariantCulture))), 1e-9);
    }

    [Theory]
    [MemberData(nameof(DecisionIds))]
    public void Points_in_a_row_ask_what_the_published_rules_ask(string id)
    {
        var published = Misc.GetProperty(id);
        var (line, scores) = (published.At("aimline").Decimals(), published.At("scores").Decimals());
        var aimline = new Aimline(0, line[0], 7 * (line.Length - 1), line[^1], published.At("increase").GetBoolean() ? Better.Up : Better.Down);
        DayValue[] points = [.. scores.Select((score, week) => new DayValue(7 * week, score))];

        Assert.Equal(Named(published.At("four_point").GetString()!), Questions.Of(aimline, points));
        Assert.Equal(Named(published.At("three_point").GetString()!), Questions.Of(aimline, points, 3));
    }

    [Fact]
    public void Published_decisions_are_all_there() => Assert.Equal(6, DecisionIds().Count);

    // TR-05 has an ordinary least squares slope of 1.169697 a week
    [Theory]
    [InlineData("TA-01", 1.5, Question.ChangeTeaching)]
    [InlineData("TA-02", 1.0, Question.RaiseTarget)]
    public void Trend_against_aimline_asks_as_published(string id, double aimPerWeek, Question asked)
    {
        Assert.EndsWith(asked == Question.ChangeTeaching ? "flatter: change instruction" : "steeper: raise goal", Misc.At(id).TryGetProperty("decision", out var d)
            ? d.GetString() : "steeper: raise goal", StringComparison.Ordinal);
        var aimline = new Aimline(0, 20, 70, 20 + (decimal)(10 * aimPerWeek), Better.Up);

        Assert.Equal(asked, Questions.OfTrend(aimline, Weekly().Ols.Slope.Value!.Value));
    }

    [Fact]
    public void Where_less_is_better_a_trend_that_falls_faster_is_steeper()
    {
        var aimline = new Aimline(0, 12, 70, 2, Better.Down);

        Assert.Equal(Question.RaiseTarget, Questions.OfTrend(aimline, -1.5));
        Assert.Equal(Question.ChangeTeaching, Questions.OfTrend(aimline, -0.5));
        Assert.Equal(Question.Keep, Questions.OfTrend(aimline, aimline.PerWeek));
    }

    [Fact]
    public void Point_on_a_line_that_no_binary_fraction_holds_is_on_neither_side()
    {
        var aimline = new Aimline(0, 0.1m, 3, 0.4m, Better.Up);

        Assert.Equal([0, 0, 1, -1], new DayValue[] { new(1, 0.2m), new(2, 0.3m), new(2, 0.301m), new(2, 0.299m) }.Select(aimline.SideOf));
    }

    [Fact]
    public void Target_on_or_before_the_baselines_day_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Aimline(10, 1, 10, 2, Better.Up));

    // PD-01: y = 22.4 + 1.2 x in weeks, week 1 on 7 September 2026, target 40
    [Fact]
    public void Projected_day_is_the_first_whole_day_on_or_after_the_crossing()
    {
        var projection = Projection.Of(Weekly(DayOf("2026-09-07")), 40, Better.Up);

        Assert.Equal(DayOf(Misc.GetProperty("PD-01"), "projected_date"), projection.Day);
        Assert.True(projection.Earliest < projection.Day && projection.Latest > projection.Day, projection.ToString());
    }

    [Fact]
    public void Crossing_on_a_whole_day_is_that_day()
    {
        DayValue[] points = [new(0, 0.1m), new(1, 0.4m), new(2, 0.7m), new(3, 1.0m)];

        Assert.Equal(30, Projection.Of(points, 9.1m, Better.Up).Day);
        Assert.Equal(31, Projection.Of(points, 9.101m, Better.Up).Day);
    }

    [Fact]
    public void Width_of_a_projection_is_open_where_the_flattest_slope_never_gets_there()
    {
        DayValue[] points = [.. new[] { 4m, 7, 3, 8, 5, 9, 4, 8, 6, 9 }.Select((v, i) => new DayValue(7 * i, v))];

        var projection = Projection.Of(points, 12, Better.Up);

        Assert.True(projection.Earliest < projection.Day, projection.ToString());
        Assert.Null(projection.Latest);
    }

    [Theory]
    [InlineData(new[] { 3, 3, 3 }, "the trend is level")]
    [InlineData(new[] { 5, 4, 3 }, "the trend leads away from the target")]
    [InlineData(new[] { 5, 6 }, "too few points (have 2, need 3)")]
    public void Trend_that_never_meets_the_target_says_why(int[] values, string why)
    {
        var projection = Projection.Of([.. values.Select((v, day) => new DayValue(day, v))], 9, Better.Up);

        Assert.Equal((null, why), (projection.Day, projection.Why));
    }

    [Fact]
    public void Trend_that_takes_longer_than_any_calendar_says_so()
    {
        DayValue[] points = [new(0, 0), new(1, 0.000001m), new(2, 0.000002m)];

        Assert.Equal("the trend is too flat to meet the target within any calendar", Projection.Of(points, 100, Better.Up).Why);
    }

    private static DayValue[] Weekly(int first) =>
        [.. Published.Read("trend.json").At("TR-05_weekly_series/y").Decimals().Select((y, week) => new DayValue(first + (7 * week), y))];

    private static Trend Weekly()
    {
        var series = Published.Read("trend.json").GetProperty("TR-05_weekly_series");
        return Trend.Of(series.At("x").Decimals(), series.At("y").Decimals());
    }

    private static Question Named(string published) => published switch
    {
        "below: change instruction" => Question.ChangeTeaching,
        "above: raise goal" => Question.RaiseTarget,
        "insufficient" => Question.TooFew,
        _ => Question.Keep,
    };

    private static int DayOf(JsonElement element, string name) => DayOf(element.GetProperty(name).GetString()!);

    private static int DayOf(string date) => Day.Of(LocalDatePattern.Iso.Parse(date).Value);

    [Fact]
    public void Points_on_one_line_give_the_projected_day_no_width() => Gen.Int[1, 400].Array[3].Sample(steps =>
    {
        // a third of a point a day: no number in binary floating point is that slope
        var points = Enumerable.Range(0, 9).Select(i => new DayValue(740_000 + (3 * steps.Sum() * i), steps.Sum() * i)).ToList();

        var projection = Projection.Of(points, (steps.Sum() * 9) + 1, Better.Up);

        Assert.Equal((projection.Day, projection.Day), (projection.Earliest, projection.Latest));
    });
}
