using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Makes the lines of a goal's probe commitments: how many probes are promised in which windows, and of whom.</summary>
/// <param name="lines">Takes what is made.</param>
internal sealed class GoalLines(WindowCatalog windows, List<CommitmentLine> lines)
{
    /// <summary>Adds a line for each run of commitments of one shape, and where it is by each owner, for each of them.</summary>
    public void Add(PlannedGoal goal, ReadOnlySpan<ProbeVersion> commitments, ReadOnlySpan<Named> owners)
    {
        for (var first = 0; first < commitments.Length;)
        {
            var next = first + 1;
            while (next < commitments.Length && commitments[next].HasShapeOf(commitments[first]))
                next++;
            var last = next < commitments.Length ? commitments[next].Version.From - 1 : goal.Dates.Last;
            var dates = goal.Dates.And(new(commitments[first].Version.From, last));
            AddRun(goal, dates, commitments[first..next], owners);
            first = next;
        }
    }

    private void AddRun(PlannedGoal goal, DateRange dates, ReadOnlySpan<ProbeVersion> run, ReadOnlySpan<Named> owners)
    {
        var versions = new PromiseVersion[run.Length];
        for (var i = 0; i < run.Length; i++)
            versions[i] = run[i].Version;
        if (!run[0].ByEach || owners.IsEmpty)
        {
            AddCommitment(goal, run[0].Every, dates, versions, owners, null);
            return;
        }
        for (var i = 0; i < owners.Length; i++)
            AddCommitment(goal, run[0].Every, dates.And(owners[i].Days), versions, owners.Slice(i, 1), owners[i].PersonId);
    }

    private void AddCommitment(
        PlannedGoal goal, Every every, DateRange dates, ReadOnlySpan<PromiseVersion> versions, ReadOnlySpan<Named> named, int? owner)
    {
        if (dates.IsEmpty)
            return;
        var promise = new Promise(every, dates, Within(dates, versions));
        lines.Add(new()
        {
            IsProbes = true,
            Id = goal.Id,
            LearnerId = goal.Learner,
            Code = goal.Code,
            Position = goal.Position,
            OwnerId = owner,
            Named = [.. named],
            Promise = promise,
            Windows = windows.Of(promise, goal.Plan),
            Plan = goal.Plan,
            DailyLimit = 1,
            Area = goal.Area,
            IsPartOfGoal = dates != goal.Dates,
        });
    }

    /// <summary>The versions in force within a line's dates; nothing is promised before the first one.</summary>
    public static PromiseVersion[] Within(DateRange dates, ReadOnlySpan<PromiseVersion> versions)
    {
        if (versions is [var only] && only.From <= dates.First)
            return [only with { From = dates.First }];
        var within = new List<PromiseVersion> { new(dates.First, 0) };
        foreach (var version in versions)
        {
            if (version.From <= dates.First)
                within[0] = version with { From = dates.First };
            else if (version.From <= dates.Last)
                within.Add(version);
        }
        return [.. within];
    }
}

/// <summary>A goal as its lines need it.</summary>
/// <param name="Plan">The plan's dates.</param>
internal sealed record PlannedGoal(int Id, int Learner, string Code, int Position, string Area, DateRange Dates, DateRange Plan);

/// <summary>So many probes from a day on.</summary>
internal readonly record struct ProbeVersion(PromiseVersion Version, Every Every, bool ByEach)
{
    public bool HasShapeOf(ProbeVersion other) => Every == other.Every && ByEach == other.ByEach;
}
