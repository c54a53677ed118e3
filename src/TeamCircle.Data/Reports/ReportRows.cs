using TeamCircle.Core.Reports;

namespace TeamCircle.Data.Reports;

/// <summary>One edition of a learner's progress report for one reporting period.</summary>
public sealed class ReportRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int PeriodId { get; set; }

    /// <summary>1 for the first; each correction of a finished report is another.</summary>
    public int Edition { get; set; } = 1;
    public int BegunBy { get; set; }

    /// <summary>JSON of the <see cref="ReportFacts"/>; null until somebody brings them in.</summary>
    public string? Facts { get; set; }

    /// <summary>The hash of what stands, by <see cref="ReportContent.Hash"/>: a signature of another one stands for what was there before.</summary>
    public required string Hash { get; set; }
    public int? FinishedBy { get; set; }
    public Instant? FinishedAt { get; set; }

    /// <summary>Why it was finished although an owner had not signed; null where all had.</summary>
    public string? FinishedWithout { get; set; }
    public int? SharedBy { get; set; }
    public Instant? SharedAt { get; set; }

    /// <summary>False where another edition stands in its place.</summary>
    public bool Live { get; set; } = true;

    /// <summary>Why it was corrected.</summary>
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }

    public ReportState State => !Live ? ReportState.Replaced : SharedAt is not null ? ReportState.Shared : FinishedAt is not null ? ReportState.Finished : ReportState.Open;
}

/// <summary>What the team says of one goal in a report. "Not enough progress" leaves a review open until somebody says what came of it.</summary>
public sealed class ReportGoalRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int ReportId { get; set; }
    public int GoalId { get; set; }
    public int Position { get; set; }
    public ReportStatus? Status { get; set; }
    public string? Reason { get; set; }
    public string? Words { get; set; }
    public int? JoinedBy { get; set; }
    public Instant? JoinedAt { get; set; }
    public int? ReviewedBy { get; set; }
    public Instant? ReviewedAt { get; set; }

    /// <summary>What the team decided when it looked at the teaching.</summary>
    public string? ReviewWord { get; set; }
    public int Version { get; set; }

    public GoalSaid Said => new(GoalId, Status, Reason, Words);
}

/// <summary>What one person wrote about one goal, before one of them joined it.</summary>
public sealed class ReportPartRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int ReportId { get; set; }
    public int GoalId { get; set; }
    public int PersonId { get; set; }
    public required string Words { get; set; }
    public Instant WrittenAt { get; set; }
    public int Version { get; set; }
}

/// <summary>Somebody signed what stood then, under a credential. Never changed.</summary>
public sealed class ReportSignatureRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int ReportId { get; set; }
    public int PersonId { get; set; }
    public required string Credential { get; set; }
    public required string Hash { get; set; }
    public Instant SignedAt { get; set; }
}
