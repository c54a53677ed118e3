using TeamCircle.Core.Time;

namespace TeamCircle.Core.Practice;

/// <summary>What one practice comes to: in all, and for each goal that its steps serve (docs/rules.md, part 11).</summary>
/// <param name="Trials">In the order in which they were presented.</param>
/// <param name="Goals">In the order of the routine; a goal whose steps had no trial is there with none.</param>
/// <param name="Steps">Done as written, over all steps of the routine.</param>
/// <param name="Waits">Over all trials.</param>
public sealed record PracticeFigures(
    IReadOnlyList<TrialTimeline> Trials, IReadOnlyList<GoalFigures> Goals, CountOf Steps, CountOf Waits)
{
    /// <param name="record">In accordance with <see cref="PracticeRules"/>.</param>
    /// <param name="steps">What the version that was practised says.</param>
    public static PracticeFigures Of(PracticeRecord record, IReadOnlyList<AgreedStep> steps)
    {
        var byKey = steps.ToDictionary(s => s.Key);
        TrialTimeline[] trials = [.. record.Trials.Select(t => TrialTimeline.Of(t, byKey[t.Step].Prompts))];
        return new(
            trials, [.. steps.SelectMany(s => s.Goals).Distinct().Select(goal => GoalFigures.Of(goal, record, steps, trials))],
            AsWritten(record, steps), Kept(trials));
    }

    internal static CountOf AsWritten(PracticeRecord record, IEnumerable<AgreedStep> due)
    {
        var written = record.Steps.Where(s => s.Done == HowDone.AsWritten).Select(s => s.Step).ToHashSet();
        return CountOf.Where(due, s => written.Contains(s.Key));
    }

    internal static CountOf Kept(IEnumerable<TrialTimeline> trials) => CountOf.Where(trials.Where(t => t.WaitKept is not null), t => t.WaitKept == true);
}

/// <summary>"3 of 8". Of none, it is not applicable: there is no share.</summary>
public sealed record CountOf(int Count, int Of)
{
    /// <summary>Percent to one decimal, halves away from zero; null of none.</summary>
    public decimal? Percent => Of == 0 ? null : Math.Round(100m * Count / Of, 1, MidpointRounding.AwayFromZero);

    internal static CountOf Where<T>(IEnumerable<T> all, Func<T, bool> counts)
    {
        var list = all.ToList();
        return new(list.Count(counts), list.Count);
    }
}

/// <summary>What one practice comes to for one goal, over the trials of the steps that serve it.</summary>
/// <param name="WithoutHelp">Responses hoped for without a prompt, of the opportunities.</param>
/// <param name="AveragePrompts">Mean of prompts needed over the opportunities, no response being one more than the order has prompts;
/// null where there was no opportunity. Comparable within one version of the order only.</param>
/// <param name="Refused">Trials that the learner refused; never opportunities.</param>
/// <param name="Unjudged">Opportunities in which nobody said whether the response was the one hoped for.</param>
/// <param name="TimesToRespond">Milliseconds, of the opportunities that have one.</param>
/// <param name="NotWithinTheWait">Opportunities that are censored: no response came before the first prompt or the end.</param>
/// <param name="Duration">From the first response begun to its completion, in milliseconds, of the same opportunities.</param>
public sealed record GoalFigures(
    int Goal, CountOf WithoutHelp, Ratio? AveragePrompts, int Refused, int Unjudged, IReadOnlyList<int> TimesToRespond,
    int NotWithinTheWait, IReadOnlyList<int> Duration, CountOf Steps, CountOf Waits)
{
    internal static GoalFigures Of(int goal, PracticeRecord record, IReadOnlyList<AgreedStep> steps, IReadOnlyList<TrialTimeline> trials)
    {
        var serving = steps.Where(s => s.Goals.Contains(goal)).ToDictionary(s => s.Key);
        TrialTimeline[] own = [.. trials.Where(t => serving.ContainsKey(t.Trial.Step))];
        TrialTimeline[] chances = [.. own.Where(t => t.IsOpportunity)];
        TrialTimeline[] timed = [.. chances.Where(t => t.TimeToRespond is not null)];
        return new(
            goal, CountOf.Where(chances, t => t.WithoutHelp),
            chances.Length == 0 ? null : new Ratio(chances.Sum(t => t.PromptsNeeded ?? serving[t.Trial.Step].Prompts.Count + 1), chances.Length),
            own.Count(t => t.End == TrialEnd.Refused), chances.Count(t => t is { End: TrialEnd.Response, Response: null }),
            [.. timed.Select(t => t.TimeToRespond!.Value)], chances.Count(t => t.CensoredAt is not null),
            [.. timed.Select(t => t.Completed!.Value - t.TimeToRespond!.Value)],
            PracticeFigures.AsWritten(record, serving.Values), PracticeFigures.Kept(own));
    }
}
