using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Learners;

/// <summary>A goal of a plan with its probe commitment.</summary>
public sealed class GoalRow : GoalTerms, ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int PlanId { get; set; }
    public required string Code { get; set; }
    public int Position { get; set; }

    /// <summary>A free heading.</summary>
    public required string Area { get; set; }
    public required string Statement { get; set; }

    /// <summary>The goal in plain words for the family, in each language; null where nobody wrote them.</summary>
    public string? PlainEnglish { get; set; }
    public string? PlainSpanish { get; set; }
    public decimal? Target { get; set; }
    public LocalDate? TargetDay { get; set; }
    public LocalDate FromDay { get; set; }
    public LocalDate ToDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A change in how a goal is taught or in its target, from a day on: drawn on the goal's chart.</summary>
public sealed class GoalChangeRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int GoalId { get; set; }
    public LocalDate OnDay { get; set; }
    public GoalChangeKind Kind { get; set; }

    /// <summary>What changed, as people wrote it; for a target: from what to what.</summary>
    public required string Words { get; set; }
    public int RecordedBy { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>So many probes per window, from a day on until the next one of the same goal; 0 asks for none.</summary>
public sealed class ProbeCommitmentRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int GoalId { get; set; }
    public LocalDate FromDay { get; set; }
    public int Probes { get; set; }
    public EveryUnit EveryUnit { get; set; }
    public int EveryCount { get; set; } = 1;

    /// <summary>True: one commitment for every owner; false: one for all owners together.</summary>
    public bool ByEach { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

public sealed class GoalOwnerRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int GoalId { get; set; }
    public int PersonId { get; set; }
    public int Position { get; set; }
    public LocalDate FromDay { get; set; }
    public LocalDate ToDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A short-term objective, in order.</summary>
public sealed class ObjectiveRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int GoalId { get; set; }
    public int Position { get; set; }
    public required string Statement { get; set; }
    public LocalDate? TargetDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
