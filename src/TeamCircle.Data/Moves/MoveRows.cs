using TeamCircle.Core.Moves;

namespace TeamCircle.Data.Moves;

/// <summary>Somebody's last day in the agency. Their roles and most of their relations end with it; one a person stands.</summary>
public sealed class LastDayRow : IAgencyRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int PersonId { get; set; }
    public LocalDate Day { get; set; }
    public int SetBy { get; set; }

    /// <summary>The act that set it: what it ended comes back with it.</summary>
    public Guid Operation { get; set; }

    /// <summary>When the hand-over was marked as finished; null before.</summary>
    public Instant? FinishedAt { get; set; }
    public int? FinishedBy { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>All that somebody who leaves had with one learner, handed over in one act.</summary>
public sealed class LearnerHandOverRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>Who leaves.</summary>
    public int PersonId { get; set; }

    /// <summary>The successor; null: nobody yet.</summary>
    public int? ToPersonId { get; set; }

    /// <summary>The next case manager; null where that was not handed over with it.</summary>
    public int? ManagerId { get; set; }
    public LocalDate LastDay { get; set; }

    /// <summary>The successor's first day.</summary>
    public LocalDate FromDay { get; set; }
    public int DoneBy { get; set; }
    public Instant DoneAt { get; set; }

    /// <summary>The act: all that it changed comes back with it.</summary>
    public Guid Operation { get; set; }
    public Instant? UndoneAt { get; set; }
    public int? UndoneBy { get; set; }
    public string? UndoneReason { get; set; }
    public int Version { get; set; }
}

/// <summary>Something of somebody who has left that can no longer be logged or signed. Never changed; shown at the visit or report ever after.</summary>
public sealed class FiledItemRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>Whose it would have been.</summary>
    public int PersonId { get; set; }

    /// <summary>One of these two.</summary>
    public Guid? VisitId { get; set; }
    public int? ReportId { get; set; }
    public required string Words { get; set; }
    public int FiledBy { get; set; }
    public Instant FiledAt { get; set; }
}

/// <summary>A learner who came with a plan from elsewhere.</summary>
public sealed class MoveInRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public required string FromWhere { get; set; }

    /// <summary>Another state's plan (34 CFR 300.323(f)); otherwise one of the same state (e).</summary>
    public bool OtherState { get; set; }
    public LocalDate FirstDay { get; set; }
    public MoveInStatus Status { get; set; }

    /// <summary>From when the plan is adopted or a plan of our own is in force; null with <see cref="MoveInStatus.Comparable"/>.</summary>
    public LocalDate? DecidedOn { get; set; }
    public int? DecidedBy { get; set; }
    public string? DecidedWords { get; set; }
    public int EnteredBy { get; set; }
    public int Version { get; set; }
}

/// <summary>What the plan from elsewhere says of one service, in its own words, and the service of ours that is comparable.</summary>
public sealed class MoveInServiceRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int MoveInId { get; set; }
    public required string Words { get; set; }

    /// <summary>Null: none is given yet.</summary>
    public int? ServiceId { get; set; }
    public int EnteredBy { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>Records that were asked for where the learner came from (34 CFR 300.323(g)).</summary>
public sealed class AskedRecordRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int MoveInId { get; set; }
    public required string What { get; set; }
    public required string OfWhom { get; set; }
    public LocalDate AskedOn { get; set; }
    public int AskedBy { get; set; }
    public LocalDate? ReceivedOn { get; set; }
    public int Version { get; set; }
}

/// <summary>A learner who goes. The services end with the last day; what was recorded stays.</summary>
public sealed class MoveOutRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public LocalDate LastDay { get; set; }
    public required string ToWhere { get; set; }
    public TransferGround Ground { get; set; }

    /// <summary>The paper or notice that says so.</summary>
    public required string GroundWords { get; set; }

    /// <summary>The last day on which the team reads the record; the case manager keeps it.</summary>
    public LocalDate ReadUntil { get; set; }

    /// <summary>What works with the learner, in the team's words; null until somebody wrote it.</summary>
    public string? Works { get; set; }
    public string? WorksNot { get; set; }
    public int SetBy { get; set; }

    /// <summary>The act that set it: what it ended comes back with it.</summary>
    public Guid Operation { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A file for the receiving agency as it was made: what it says never changes, whatever is corrected later.</summary>
public sealed class TransferFileRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int MoveOutId { get; set; }

    /// <summary>JSON of the <see cref="TransferContent"/>.</summary>
    public required string Content { get; set; }
    public int MadeBy { get; set; }
    public Instant MadeAt { get; set; }
    public LocalDate? SentOn { get; set; }
    public string? SentTo { get; set; }
    public string? SentHow { get; set; }
    public int? SentBy { get; set; }
    public int Version { get; set; }
}
