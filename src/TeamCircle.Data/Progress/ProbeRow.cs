using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;

namespace TeamCircle.Data.Progress;

/// <summary>One probe of one goal. Never edited: a correction is a new row, as with sessions.</summary>
public sealed class ProbeRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public Guid Id { get; set; }
    public int LearnerId { get; set; }
    public int GoalId { get; set; }
    public int ProviderId { get; set; }
    public LocalDate OnDay { get; set; }
    public LocalDate? PaysOn { get; set; }
    public decimal Value { get; set; }
    public int? Opportunities { get; set; }
    public ProbeKind Kind { get; set; }
    public Stage? Stage { get; set; }
    public string? Conditions { get; set; }

    /// <summary>The conditions that a chart is filtered by; null where nobody said.</summary>
    public StateOfLearner? State { get; set; }
    public string? Position { get; set; }
    public string? Side { get; set; }
    public string? Place { get; set; }
    public Guid? SessionId { get; set; }

    /// <summary>The practice whose figures it gives; null for one that was counted by itself.</summary>
    public Guid? PracticeId { get; set; }
    public bool Live { get; set; } = true;
    public Guid? Replaces { get; set; }
    public string? CorrectionReason { get; set; }
    public string? TakenBackReason { get; set; }

    /// <summary>It came by an agency's file: when it was first written down is not on record.</summary>
    public bool FromFile { get; set; }
    public int RecordedBy { get; set; }
    public Instant RecordedAt { get; set; }

    /// <summary>As the rules take it.</summary>
    internal GoalPoint Point => new(OnDay, Value, Opportunities, Kind, ProviderId) { Stage = Stage, Place = Place, State = State, Position = Position, Side = Side };
}
