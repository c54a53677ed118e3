using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Learners;

/// <summary>The parts of a goal as they are typed, on the forms that add a goal and that change one.</summary>
public sealed class GoalInput : GoalTerms
{
    public string? Area { get; set; }
    public string? Statement { get; set; }
    public decimal? Target { get; set; }
    public LocalDate? TargetDay { get; set; }
    public List<ObjectiveInput> Objectives { get; set; } = [];

    internal GoalStatement StatementEntry => new(Area?.Trim(), Statement?.Trim(), Target, TargetDay);

    internal IReadOnlyList<ObjectiveInput> ObjectivesInOrder => [.. Objectives.Where(o => !string.IsNullOrWhiteSpace(o.Statement))];
}

/// <summary>A short-term objective; an empty statement takes it away.</summary>
public sealed class ObjectiveInput
{
    public string? Statement { get; set; }
    public LocalDate? TargetDay { get; set; }
}

/// <summary>How many probes a goal asks for.</summary>
public sealed class ProbesInput
{
    public int? Probes { get; set; }
    public EveryUnit EveryUnit { get; set; }
    public int? EveryCount { get; set; } = 1;
    public bool ByEach { get; set; }

    internal ProbesEntry Entry => new(Probes, EveryUnit, EveryCount ?? 0, ByEach);

    internal ProbeCommitmentRow Row(GoalRow goal, LocalDate from) => new()
    {
        AgencyId = goal.AgencyId,
        LearnerId = goal.LearnerId,
        GoalId = goal.Id,
        FromDay = from,
        Probes = Probes!.Value,
        EveryUnit = EveryUnit,
        EveryCount = EveryCount!.Value,
        ByEach = ByEach,
    };
}
