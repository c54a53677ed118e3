using TeamCircle.Core;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>How goals and probes are said on their pages.</summary>
public static class ProbeWords
{
    /// <summary>37.5 percent without help, 3 of 8; 3 of 8; 4.2 seconds.</summary>
    public static string Value(Measure measure, decimal value, int? opportunities)
    {
        var number = GoalWords.Number(value);
        return measure switch
        {
            Measure.ResponsesOf => opportunities is { } all ? $"{number} of {Say.Number(all)}" : number,
            Measure.PercentIndependent => $"{number} percent without help{Of(value, opportunities)}",
            Measure.AveragePromptsNeeded => $"{number} prompts on average{(opportunities is { } n ? $", of {Say.Number(n)}" : "")}",
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

    /// <summary>more is better: from 20 to 80 by 6 May 2027</summary>
    public static string Target(GoalCoursePage goal)
    {
        var from = goal.Terms.Baseline is { } baseline ? $" from {GoalWords.Number(baseline)}" : "";
        var to = goal.Target is { } target ? $" to {GoalWords.Number(target)}" : "";
        var by = goal.TargetDay is { } day ? $" by {Say.Date(day)}" : "";
        var better = goal.Terms.Better == Better.Up ? "more is better" : "less is better";
        return from + to + by is { Length: > 0 } path ? $"{better}:{path}" : better;
    }

    /// <summary>1 probe a week by each owner</summary>
    public static string Asked(ProbesAsked asked) => asked.Probes == 0
        ? "none" : $"{Say.Probes(asked.Probes)} {Say.Every(asked.Every)} by {(asked.ByEach ? "each owner" : "any of the owners")}";

    /// <summary>Whole responses where the percent comes from so many opportunities; otherwise only the opportunities are known.</summary>
    private static string Of(decimal percent, int? opportunities)
    {
        if (opportunities is not { } of)
            return "";
        var count = Math.Round(percent * of / 100, MidpointRounding.AwayFromZero);
        return Math.Abs(count * 100 / of - percent) <= 0.05m ? $", {Say.Number((int)count)} of {Say.Number(of)}" : $", of {Say.Number(of)}";
    }
}
