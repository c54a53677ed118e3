using System.Globalization;
using TeamCircle.Core.Guide;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Web.Pages.Practice;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>What the examples come to, in words.</summary>
public static class GuideWords
{
    /// <summary>Without help, 3 of 8 opportunities: 38 percent, between 14 and 69.</summary>
    public static string WithoutHelp(GoalFigures figures, Proportion share) => share.Value.Value is not { } value
        ? "No opportunity: there is no share."
        : $"Without help, {Say.Number(figures.WithoutHelp.Count)} of {Say.Number(figures.WithoutHelp.Of)} opportunities: {WaitWords.Percent(value)}, {WaitWords.Ends(share.Low.Value!.Value, share.High.Value!.Value)} (Wilson's interval)."
            + (figures.Refused > 0 ? $" {Say.Count(figures.Refused, "trial")} refused, and no opportunity." : "");

    public static string Prompts(GoalFigures figures) => figures.AveragePrompts is { } average
        ? $"Average prompts needed: {Level((double)average.Over / (double)average.Under)}." : "No opportunity: there is no average of prompts.";

    /// <summary>To two decimals, without zeros at the end.</summary>
    public static string Level(double value) => Math.Round(value, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);

    public static string Trend(TheilSen trend) => trend.Slope.Value is not { } slope ? trend.Slope.Why!
        : trend.Low.Value is { } low && trend.High.Value is { } high ? $"{Level(slope)} a week, between {Level(low)} and {Level(high)}" : $"{Level(slope)} a week";

    public static string Meets(AimlineExample example) => example.Projection.Day is { } day
        ? $"It meets the target in week {Say.Number((day + 6) / 7)}; the target is set for week {Say.Number(example.Weeks)}."
        : $"It meets the target on no day: {example.Projection.Why}.";

    public static string Asks(AimlineExample example) => example.Question switch
    {
        Question.TooFew => $"Fewer than {Say.Number(example.InARow)} points: nothing is asked yet.",
        Question.ChangeTeaching => $"The last {Say.Number(example.InARow)} points lie on the worse side of the aimline: should the teaching change?",
        Question.RaiseTarget => $"The last {Say.Number(example.InARow)} points lie on the better side of the aimline: should the target be raised?",
        _ => $"The last {Say.Number(example.InARow)} points do not all lie on one side of the aimline: go on as it is.",
    };

    public static string Agreement(Agreement agreement)
    {
        if (agreement.Exact.Value is not { } exact)
            return "No trials: there is nothing to agree on.";
        var kappa = agreement.Kappa.Value is { } value ? $"Cohen's kappa {Level(value)}" : $"Cohen's kappa: {agreement.Kappa.Why}";
        return $"{Say.Number(agreement.Agree)} of {Say.Count(agreement.Trials, "trial")} alike: {WaitWords.Percent(exact)}. By chance {WaitWords.Percent(agreement.Chance.Value!.Value)} would be. {kappa}.";
    }
}
