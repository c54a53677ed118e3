using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Makes the lines of a goal's probe commitments: how many probes are promised in which windows, and of whom.</summary>
/// <param name="lines">Takes what is made.</param>
internal sealed class GoalLines(SharedPromises promises, List<CommitmentLine> lines)
{
    /// <summary>Adds a line for each run of commitments of one shape, and where it is by each owner, for each of them.</summary>
    public void Add(in PlannedGoal goal, ReadOnlySpan<ProbeVersion> commitments, ReadOnlySpan<Named> owners)
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

    private void AddRun(in PlannedGoal goal, DateRange dates, ReadOnlySpan<ProbeVersion> run, ReadOnlySpan<Named> owners)
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
        in PlannedGoal goal, Every every, DateRange dates, ReadOnlySpan<PromiseVersion> versions, ReadOnlySpan<Named> named, int? owner)
    {
        if (dates.IsEmpty)
            return;
        var (promise, windows) = promises.Of(every, dates, goal.Plan, versions);
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
            Windows = windows,
            Plan = goal.Plan,
            DailyLimit = 1,
            Area = goal.Area,
            IsPartOfGoal = dates != goal.Dates,
        });
    }
}

/// <summary>A goal as its lines need it.</summary>
/// <param name="Plan">The plan's dates.</param>
internal readonly record struct PlannedGoal(int Id, int Learner, string Code, int Position, string Area, DateRange Dates, DateRange Plan);

/// <summary>So many probes from a day on.</summary>
internal readonly record struct ProbeVersion(PromiseVersion Version, Every Every, bool ByEach)
{
    public bool HasShapeOf(ProbeVersion other) => Every == other.Every && ByEach == other.ByEach;
}
