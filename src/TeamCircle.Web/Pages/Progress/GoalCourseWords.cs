using System.Globalization;
using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>What a goal's data say, in sentences that claim no more than the data do.</summary>
public static class GoalCourseWords
{
    /// <summary>+1.25; -0.5; 0. At most two decimals, halves away from zero.</summary>
    public static string Slope(double perWeek) =>
        Math.Round(perWeek, 2, MidpointRounding.AwayFromZero).ToString("+0.##;-0.##;0", CultureInfo.InvariantCulture);

    /// <summary>24.5; at most one decimal, halves away from zero.</summary>
    public static string Level(double value) => Math.Round(value, 1, MidpointRounding.AwayFromZero).ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>+1.2 a week over 14 points, by its 95 percent interval from +0.4 to +2; no trend: too few different days (have 1, need 2)</summary>
    public static string Trend(GoalStanding standing)
    {
        if (standing.PerWeek is not { } slope)
            return $"no trend: {standing.Trend.Slope.Why}";
        var width = standing.Trend is { Low.Value: { } low, High.Value: { } high }
            ? $"by its 95 percent interval from {Slope(low * 7)} to {Slope(high * 7)}" : $"how exact it is can't be said ({standing.Trend.Low.Why})";
        return $"{Slope(slope)} a week over {Say.Count(standing.Taught.Count, "point")}, {width}";
    }

    /// <summary>the median of 5 points before teaching</summary>
    public static string RestsOn(Baseline baseline) =>
        baseline.Points > 0 ? $"the median of {Say.Count(baseline.Points, "point")} before teaching" : "the present level as the plan states it";

    /// <summary>What the last points ask.</summary>
    public static string Asked(GoalStanding standing, int inARow) => standing.Asked switch
    {
        Question.ChangeTeaching => $"The last {Say.Number(inARow)} points lie on the worse side of the aimline. Should the teaching change?",
        Question.RaiseTarget => $"The last {Say.Number(inARow)} points lie on the better side of the aimline. Is the target high enough?",
        Question.Keep => $"The last {Say.Number(inARow)} points do not all lie on one side of the aimline. They raise no question.",
        Question.TooFew => $"Too few points for a question (have {Say.Number(standing.Taught.Count)}, need {Say.Number(inARow)}).",
        _ => $"There is no aimline, so the points raise no question: {standing.WhyNoAimline}.",
    };

    /// <summary>What the trend asks beside the aimline; null where there is nothing to compare, or where it rests on fewer points than are asked for first.</summary>
    public static string? AskedByTrend(GoalStanding standing) => (standing.AskedByTrend, standing.Aimline, standing.PerWeek) switch
    {
        _ when standing.Taught.Count < Questions.AskedForFirst => null,
        (Question.ChangeTeaching, { } aim, { } slope) => $"The trend ({Slope(slope)} a week) does not keep up with the aimline ({Slope(aim.PerWeek)} a week). Should the teaching change?",
        (Question.RaiseTarget, { } aim, { } slope) => $"The trend ({Slope(slope)} a week) leads to the target sooner than the aimline ({Slope(aim.PerWeek)} a week). Is the target high enough?",
        (Question.Keep, _, _) => "The trend runs as the aimline does.",
        _ => null,
    };

    /// <summary>That six to eight points are asked for first; null where there are as many.</summary>
    public static string? AsksForMore(GoalStanding standing) => standing.Taught.Count is var have && have < Questions.AskedForFirst
        ? $"It rests on {Say.Count(have, "point")} only. Six to eight are asked for before anybody decides by them." : null;

    /// <summary>When the trend would meet the target, and between which days by its interval.</summary>
    public static string Projected(GoalStanding standing, LocalDate today)
    {
        var projection = standing.Projection;
        if (projection.Day is not { } day)
            return $"No day can be projected: {projection.Why}.";
        var when = Day.Date(day) is var met && met <= today
            ? $"The trend met the target on {Say.Date(met)}." : $"If it goes on as it did, the trend meets the target on {Say.Date(met)}.";
        return $"{when} {Width(projection)}";
    }

    private static string Width(Projection projection) => (projection.Earliest, projection.Latest) switch
    {
        ({ } early, { } late) => $"The 95 percent interval of its slope allows any day from {Say.Date(Day.Date(early))} to {Say.Date(Day.Date(late))}.",
        ({ } early, null) => $"The 95 percent interval of its slope allows {Say.Date(Day.Date(early))} at the earliest, and leaves open whether it gets there at all.",
        _ => "How wide that guess is can't be said from so few points.",
    };

    /// <summary>2 of the last 4 days hold, with 1 adult; the last day is left out where a demand is not made.</summary>
    public static string Stands(CriterionStanding standing, Criterion criterion) => string.Concat(
        $"Of the last {Say.Count(standing.Of, "day")} with data {Say.Number(standing.Days)} {(standing.Days == 1 ? "holds" : "hold")}",
        criterion.People > 1 ? $", with {Say.Count(standing.People, "adult")} of {Say.Number(criterion.People)}" : "",
        criterion.Places > 0 ? $", in {Say.Count(standing.Places, "place")} of {Say.Number(criterion.Places)}" : "", ".");

    /// <summary>Mastered on 3 May 2027; reopened on 20 May 2027, when a value fell short of the target.</summary>
    public static string Mastered(Mastered mastered) => mastered.ReopenedOn is { } fell
        ? $"Mastered on {Say.Date(mastered.On)}; reopened on {Say.Date(fell)}, when a value fell short of the target."
        : $"Mastered on {Say.Date(mastered.On)}, and not reopened since.";

    /// <summary>17 May 2027: looked at on 18 May 2027</summary>
    public static string Upkeep(UpkeepCheck check, LocalDate today) => (check.Done, check.Due > today) switch
    {
        ({ } done, _) => $"{Say.Date(check.Due)}: looked at on {Say.Date(done)}",
        (null, true) => $"{Say.Date(check.Due)}: to come",
        _ => $"{Say.Date(check.Due)}: nobody looked yet",
    };

    /// <summary>What a break cost; says what is missing where nothing can be said.</summary>
    public static string Cost(BreakCost cost) => cost switch
    {
        { Before: null } => "No data before it.",
        { Before: { } before, After: null } => $"{At(before)} before it; no data since.",
        { Before: { } before, After: { } after, Lost: 0 } => $"{At(before)} before it, {At(after)} after it: nothing lost.",
        { Before: { } before, After: { } after } => $"{At(before)} before it, {At(after)} after it: {Level((double)cost.Lost!.Value)} lost. {Regained(cost)}",
        _ => "",
    };

    private static string At(DayLevel level) =>
        $"{Level((double)level.Level)} on {Say.Day(level.Day)}{(level.Points > 1 ? $" (mean of {Say.Count(level.Points, "point")})" : "")}";

    private static string Regained(BreakCost cost) => cost.DaysToRegain is { } days
        ? $"Regained on {Say.Date(cost.RegainedOn!.Value)}, {Say.Count(days, "day")} after the break." : "Not regained yet.";
}
