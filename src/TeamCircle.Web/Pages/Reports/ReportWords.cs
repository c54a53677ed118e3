using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Family;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Reports;
using TeamCircle.Web.Pages.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>How a progress report says things.</summary>
public static class ReportWords
{
    public static IReadOnlyList<SelectListItem> Statuses { get; } = [.. Enum.GetValues<ReportStatus>().Select(s => new SelectListItem(Say.Begin(Of(s)), s.ToString()))];

    public static string Of(ReportStatus status) => status switch
    {
        ReportStatus.Mastered => "mastered",
        ReportStatus.EnoughProgress => "enough progress to meet the goal in time",
        ReportStatus.NotEnough => "some progress, not enough to meet the goal in time",
        ReportStatus.Maintained => "maintained",
        ReportStatus.NotWorkedOn => "not worked on",
        _ => "needs a meeting",
    };

    /// <summary>The same to the family, as a sentence.</summary>
    public static string ToFamily(GoalSaid said, FamilySentences words) => said.Status switch
    {
        ReportStatus.Mastered => words.Say(FamilyGlossary.Learned, words.Child),
        ReportStatus.EnoughProgress => words.Say(FamilyGlossary.OnTheWay, words.Child),
        ReportStatus.NotEnough => words.Say(FamilyGlossary.NotFastEnough, words.Child),
        ReportStatus.Maintained => words.Say(FamilyGlossary.StillDoes, words.Child),
        ReportStatus.NotWorkedOn => words.Say(FamilyGlossary.NotWorkedOn, said.Reason ?? ""),
        _ => words.Say(FamilyGlossary.LikeToTalk),
    };

    /// <summary>Wren with no help, 3 of 8 tries (4 October)</summary>
    public static string CheckToFamily(Measure measure, LevelPoint point, FamilySentences words) =>
        words.Say(FamilyGlossary.CheckOn, new SummaryDraft(words).Value(measure, new(point.Day, point.Value, point.Of)), words.Dates.Day(point.Day));

    public static string Of(ReportWait what) => what switch
    {
        ReportWait.Part => "your paragraph about a goal",
        ReportWait.Signature => "your signature",
        _ => "progress was not enough: look at the teaching",
    };

    public static string Address(ReportWaits waits) => waits.What switch
    {
        ReportWait.Part => $"/reports/{waits.Report}/goals/{waits.Goal}",
        ReportWait.Signature => $"/reports/{waits.Report}",
        _ => $"/reports/{waits.Report}#goal-{waits.Goal}",
    };

    public static string Of(ReportState state) => state switch
    {
        ReportState.Open => "being written",
        ReportState.Finished => "finished, not shared with the family",
        ReportState.Shared => "shared with the family",
        _ => "replaced by another edition",
    };

    /// <summary>6 of 8: the middle of 4 of 8 (20 September), 6 of 8 (27 September) and 6 of 8 (4 October).</summary>
    public static string Level(GoalFacts goal, Level level) => level.Points.Count == 1
        ? $"{Check(goal.Measure, level.Points[0])}, one probe only"
        : $"{Amount(goal.Measure, level.Middle)}: the middle of {Say.List([.. level.Points.Select(p => Check(goal.Measure, p))])}";

    /// <summary>3 better than before the period; null where it cannot be said.</summary>
    public static string? Change(GoalFacts goal)
    {
        if (goal.Change is not { } change)
            return null;
        var since = goal.Before is null ? "the baseline" : "before the period";
        var isBetter = goal.Better == Better.Up ? change > 0 : change < 0;
        return change == 0 ? $"the same as {since}" : $"{Difference(goal.Measure, Math.Abs(change))} {(change > 0 ? "more" : "less")} than {since}, which is {(isBetter ? "better" : "worse")}";
    }

    public static string Target(GoalFacts goal) =>
        (goal.Target is { } target ? Amount(goal.Measure, target) : "no figure") + (goal.TargetDay is { } day ? $" by {Say.Date(day)}" : "")
        + (goal.Criterion is { } criterion ? $", {GoalWords.Criterion(TermsOf(criterion))}" : "");

    private static GoalTerms TermsOf(CriterionFacts criterion) => new()
    {
        CriterionDays = criterion.Days,
        CriterionOf = criterion.OfLast,
        CriterionFewest = criterion.Fewest,
        CriterionPeople = criterion.People,
        CriterionPlaces = criterion.Places,
    };

    public static string Probes(GoalFacts goal) => goal.ProbesDue == 0
        ? "none were asked for in weeks or months that are past" : $"{Say.Number(goal.ProbesDone)} of {Say.Number(goal.ProbesDue)} that were due";

    /// <summary>Under which conditions the points were taken, each once; empty where nobody said.</summary>
    public static string Conditions(Level level) => string.Join("; ", level.Points.Select(p => p.Conditions).OfType<string>().Distinct());

    /// <summary>6 of 8 (4 October): a percent is said as its count.</summary>
    public static string Check(Measure measure, LevelPoint point) => measure == Measure.PercentIndependent && point.Of is { } all
        ? $"{Say.Number((int)Math.Round(point.Value * all / 100, MidpointRounding.AwayFromZero))} of {Say.Number(all)} ({Say.Day(point.Day)})"
        : Point(measure, point);

    /// <summary>37.5 percent; 6 responses.</summary>
    public static string Amount(Measure measure, decimal value) => Number(value) + Unit(measure);

    private static string Difference(Measure measure, decimal value) =>
        measure == Measure.PercentIndependent ? $"{Number(value)} percentage points" : Amount(measure, value);

    private static string Number(decimal value) => Math.Round(value, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Point(Measure measure, LevelPoint point) => $"{ProbeWords.Value(measure, point.Value, point.Of)} ({Say.Day(point.Day)})";

    private static string Unit(Measure measure) => measure switch
    {
        Measure.PercentIndependent => " percent",
        Measure.TimeToRespond or Measure.Duration => " seconds",
        Measure.AveragePromptsNeeded => " prompts",
        Measure.Rate => " a minute",
        Measure.ResponsesOf => " responses",
        _ => "",
    };
}
