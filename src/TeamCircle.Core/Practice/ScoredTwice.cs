using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Practice;

/// <summary>One trial as two observers scored it.</summary>
/// <param name="Step">The step's key.</param>
/// <param name="Number">Which trial of that step, from 1.</param>
/// <param name="First">Null where only the second observer has it; so is <paramref name="Second"/> the other way round.</param>
public sealed record TrialScoredTwice(string Step, int Number, TrialTimeline? First, TrialTimeline? Second)
{
    /// <summary>Whether both say how it ended: only then do they agree or not.</summary>
    public bool IsScoredByBoth => First is not null && Second is not null && First.End != TrialEnd.Unknown && Second.End != TrialEnd.Unknown;

    /// <summary>Both ended alike, and after as many prompts.</summary>
    public bool Agrees => IsScoredByBoth && Code(First!) == Code(Second!);

    /// <summary>One code for each way in which a trial can end: prompts needed, then no response, then said no.</summary>
    internal static int Code(TrialTimeline trial) => trial.End switch
    {
        TrialEnd.Refused => int.MaxValue,
        TrialEnd.NoResponse => int.MaxValue - 1,
        _ => trial.PromptsNeeded ?? int.MaxValue - 1,
    };
}

/// <summary>Puts the trials of one practice beside those that a second observer scored.</summary>
public static class ScoredTwice
{
    /// <summary>The first trial of a step with the first of the same step, the second with the second; in the order of <paramref name="first"/>,
    /// then what only the second observer has.</summary>
    public static IReadOnlyList<TrialScoredTwice> Of(IReadOnlyList<TrialTimeline> first, IReadOnlyList<TrialTimeline> second)
    {
        var seconds = Numbered(second).ToDictionary(t => t.Key, t => t.Trial);
        var pairs = Numbered(first).Select(t => new TrialScoredTwice(t.Key.Step, t.Key.Number, t.Trial, seconds.GetValueOrDefault(t.Key))).ToList();
        var paired = pairs.Select(p => (p.Step, p.Number)).ToHashSet();
        return [.. pairs, .. seconds.Where(s => !paired.Contains(s.Key)).Select(s => new TrialScoredTwice(s.Key.Step, s.Key.Number, null, s.Value))];
    }

    /// <summary>Over the trials that both scored.</summary>
    public static Agreement Agreement(IEnumerable<TrialScoredTwice> pairs)
    {
        var both = pairs.Where(p => p.IsScoredByBoth).ToList();
        return Progress.Agreement.Of<int>([.. both.Select(p => TrialScoredTwice.Code(p.First!))], [.. both.Select(p => TrialScoredTwice.Code(p.Second!))]);
    }

    /// <summary>Of the trials that both scored: how many each counted as without help, the smaller number in percent of the larger.</summary>
    public static Figure TotalCount(IEnumerable<TrialScoredTwice> pairs)
    {
        var both = pairs.Where(p => p.IsScoredByBoth).ToList();
        return CountAgreement.Of([.. both.Select(p => p.First!.WithoutHelp ? 1 : 0)], [.. both.Select(p => p.Second!.WithoutHelp ? 1 : 0)]).Total;
    }

    private static IEnumerable<((string Step, int Number) Key, TrialTimeline Trial)> Numbered(IEnumerable<TrialTimeline> trials)
    {
        var counts = new Dictionary<string, int>();
        foreach (var trial in trials)
        {
            var number = counts[trial.Trial.Step] = counts.GetValueOrDefault(trial.Trial.Step) + 1;
            yield return ((trial.Trial.Step, number), trial);
        }
    }
}
