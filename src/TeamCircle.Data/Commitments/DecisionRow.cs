using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Commitments;

/// <summary>
/// What people decided about something not given: names a window of a service or of a goal by one of its days.
/// Taken back by <see cref="Live"/>, never deleted.
/// </summary>
public sealed class DecisionRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>Exactly one of <see cref="ServiceId"/> and <see cref="GoalId"/> is set.</summary>
    public int? ServiceId { get; set; }
    public int? GoalId { get; set; }

    /// <summary>For a goal probed by each owner: whose probes it is about; null for all owners together.</summary>
    public int? OwnerId { get; set; }
    public LocalDate OnDay { get; set; }

    /// <summary>Minutes for a service, probes for a goal.</summary>
    public int Amount { get; set; }
    public int? Sessions { get; set; }
    public DecisionKind Kind { get; set; }
    public LocalDate DecidedOn { get; set; }

    /// <summary>Who took part, at least one person of the agency.</summary>
    public int[] DecidedBy { get; set; } = [];
    public string? OthersPresent { get; set; }
    public LocalDate? FamilyToldOn { get; set; }

    /// <summary>For a make-up: by when.</summary>
    public LocalDate? ByDay { get; set; }
    public string? Note { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public int RecordedBy { get; set; }
    public Instant RecordedAt { get; set; }
}
