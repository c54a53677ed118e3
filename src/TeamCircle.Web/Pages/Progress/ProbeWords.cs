using System.Globalization;
using TeamCircle.Core;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>How goals and probes are said on their pages.</summary>
public static class ProbeWords
{
    /// <summary>37.5 percent without help, of 8; 3 of 8; 4.2 seconds.</summary>
    public static string Value(Measure measure, decimal value, int? opportunities)
    {
        var number = Number(value);
        var of = opportunities is { } n ? $", of {Say.Number(n)}" : "";
        return measure switch
        {
            Measure.ResponsesOf => opportunities is { } all ? $"{number} of {Say.Number(all)}" : number,
            Measure.PercentIndependent => $"{number} percent without help{of}",
            Measure.AveragePromptsNeeded => $"{number} prompts on average{of}",
            Measure.TimeToRespond or Measure.Duration => $"{number} seconds",
            Measure.Rate => $"{number} a minute",
            _ => number,
        };
    }

    /// <summary>What is to be typed as the value.</summary>
    public static string Hint(Measure measure) => measure switch
    {
        Measure.PercentIndependent => "Percent without help, 0 to 100.",
        Measure.ResponsesOf => "How many responses there were.",
        Measure.AveragePromptsNeeded => "Prompts needed on average; no response counts one more than there are prompts.",
        Measure.TimeToRespond or Measure.Duration => "In seconds.",
        Measure.Rate => "Responses a minute.",
        Measure.OwnScale => "On the team's own scale.",
        _ => "How many there were.",
    };

    /// <summary>quiet alert; in her chair; left; kitchen; lamp behind her. Empty where nobody said.</summary>
    public static string Conditions(ProbeConditions conditions) => string.Join("; ", new[]
    {
        conditions.State is { } state ? Words.Of(state) : null, conditions.Position, conditions.Side, conditions.Place, conditions.Words,
    }.Where(part => !string.IsNullOrWhiteSpace(part)).Select(part => part!.Trim().TrimEnd('.')));

    /// <summary>up, from 20 to 80 by 6 May 2027; 3 of 4 days</summary>
    public static string Target(GoalPage goal)
    {
        var from = goal.Baseline is { } baseline ? $" from {Number(baseline)}" : "";
        var to = goal.Target is { } target ? $" to {Number(target)}" : "";
        var by = goal.TargetDay is { } day ? $" by {Say.Date(day)}" : "";
        return $"{Words.Of(goal.Better)} is better{(from + to + by is { Length: > 0 } path ? ":" + path : "")}";
    }

    public static string? Criterion(GoalPage goal) => goal is { CriterionDays: { } days, CriterionOf: { } of }
        ? $"on {Say.Number(days)} of the last {Say.Count(of, "day")}" : null;

    /// <summary>1 probe a week by each owner</summary>
    public static string Asked(ProbesAsked asked) => asked.Probes == 0
        ? "none" : $"{Say.Probes(asked.Probes)} {Say.Every(asked.Every)} by {(asked.ByEach ? "each owner" : "any of the owners")}";

    private static string Number(decimal value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
