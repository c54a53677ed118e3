using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Practice;

/// <summary>What a practice gives for one goal, in the unit of the goal's measure.</summary>
/// <param name="Opportunities">Null where the measure asks for none.</param>
public sealed record ProbeOffer(decimal Value, int? Opportunities)
{
    /// <summary>Null where the practice gives nothing in that measure: nothing was presented, or it is counted another way.</summary>
    /// <remarks>Time to respond is offered only where every opportunity has one: a mean over those who responded would be too short.</remarks>
    public static ProbeOffer? Of(Measure measure, GoalFigures figures) => measure switch
    {
        Measure.PercentIndependent when figures.WithoutHelp.Percent is { } percent => new(percent, figures.WithoutHelp.Of),
        Measure.ResponsesOf when figures.WithoutHelp.Of > 0 => new(figures.WithoutHelp.Count, figures.WithoutHelp.Of),
        Measure.AveragePromptsNeeded when figures.AveragePrompts is { } mean => new(Rounded((decimal)mean.Over / (decimal)mean.Under, 2), figures.WithoutHelp.Of),
        Measure.TimeToRespond when figures.TimesToRespond.Count > 0 && figures.TimesToRespond.Count == figures.WithoutHelp.Of =>
            new(Rounded(figures.TimesToRespond.Sum(ms => (decimal)ms) / figures.TimesToRespond.Count / 1000, 1), figures.WithoutHelp.Of),
        _ => null,
    };

    /// <summary>Why it is teaching data and no probe; empty where it may be one: first chance of the day, no prompt, conditions kept.</summary>
    /// <param name="isFirst">Whether nothing that serves the goal was practised earlier that day.</param>
    public static IEnumerable<string> WhyNoProbe(PracticeRecord record, GoalFigures figures, IReadOnlyList<AgreedStep> steps, bool isFirst)
    {
        var serving = steps.Where(s => s.Goals.Contains(figures.Goal)).Select(s => s.Key).ToHashSet();
        var trials = record.Trials.Where(t => serving.Contains(t.Step)).ToList();
        if (!isFirst)
            yield return "it was not the first chance of the day";
        if (record.Entry == PracticeEntry.Remembered || trials.Any(t => t.Remembered is not null))
            yield return "it was filled in from memory";
        if (trials.Any(t => t.AtOnce || t.Events.Any(e => e.Kind == TrialEventKind.Prompt)))
            yield return "there were prompts";
        if (figures.Steps.Count < figures.Steps.Of)
            yield return "not every step was done as written";
        if (record.Stops.Count > 0)
            yield return "the practice was stopped";
    }

    private static decimal Rounded(decimal value, int places) => Math.Round(value, places, MidpointRounding.AwayFromZero);
}
