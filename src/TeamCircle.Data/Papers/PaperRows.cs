using TeamCircle.Core.Papers;

namespace TeamCircle.Data.Papers;

/// <summary>A day that binds and that people keep. Moved or come round again it is a row of its own, which names the one before.</summary>
public sealed class BoundDateRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public BoundKind Kind { get; set; }

    /// <summary>For a trial: its first day; null otherwise.</summary>
    public LocalDate? FromDay { get; set; }
    public LocalDate DueOn { get; set; }

    /// <summary>What the day rests on, in words.</summary>
    public required string RestsOn { get; set; }
    public string? Note { get; set; }

    /// <summary>After how many months from the day on which it was done it comes round again; null for once.</summary>
    public int? RepeatMonths { get; set; }

    /// <summary>Null while it is open, with the two that follow.</summary>
    public LocalDate? DoneOn { get; set; }
    public int? DoneBy { get; set; }

    /// <summary>What came of it; null where nothing was said.</summary>
    public string? DoneWord { get; set; }

    /// <summary>The row in whose place it stands, or after which it came round again; null for one that was entered.</summary>
    public int? FollowsId { get; set; }
    public int EnteredBy { get; set; }
    public bool Live { get; set; } = true;

    /// <summary>Why it was moved or taken back.</summary>
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>Until when a licence of a person holds. Renewed, it is another row of the same name.</summary>
public sealed class LicenceRow : IAgencyRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int PersonId { get; set; }

    /// <summary>Which licence, in words.</summary>
    public required string Name { get; set; }
    public LocalDate UntilDay { get; set; }
    public int EnteredBy { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>One time that a paper went out to the parents. Sent again, it is another row.</summary>
public sealed class DeliveryRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public PaperKind Paper { get; set; }

    /// <summary>Set where <see cref="Paper"/> says so, null otherwise; the same for the next three.</summary>
    public int? ReportId { get; set; }
    public int? StatementId { get; set; }
    public int? MeetingId { get; set; }

    /// <summary>What a notice or an evaluation is about.</summary>
    public string? About { get; set; }

    /// <summary>The last day on which it was in time, as it stood when it was sent; null where it had none.</summary>
    public LocalDate? DueOn { get; set; }
    public LocalDate SentOn { get; set; }
    public DeliveryWay Way { get; set; }
    public required string Language { get; set; }
    public required string ToWhom { get; set; }
    public int SentBy { get; set; }

    /// <summary>Null unless it came back, with the word that follows.</summary>
    public LocalDate? ReturnedOn { get; set; }
    public string? ReturnedWord { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A meeting about a learner's plan with the pack that was made for it.</summary>
public sealed class MeetingRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public LocalDate OnDay { get; set; }

    /// <summary>What it is about, in words.</summary>
    public required string About { get; set; }

    /// <summary>The day by which the family has the pack.</summary>
    public LocalDate FamilyBy { get; set; }

    /// <summary>JSON of the <see cref="PackContent"/>.</summary>
    public required string Content { get; set; }
    public int MadeBy { get; set; }
    public bool Live { get; set; } = true;

    /// <summary>Why the meeting does not take place, or on another day.</summary>
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A decision about an extended school year: asked for with a day, then decided by the team.</summary>
public sealed class ExtendedYearRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>The last day on which the decision is in time.</summary>
    public LocalDate DecideBy { get; set; }

    /// <summary>Null until the team has decided, with all that follow.</summary>
    public ExtendedYearAnswer? Answer { get; set; }
    public LocalDate? DecidedOn { get; set; }

    /// <summary>What the team weighed, in its words.</summary>
    public string? Reason { get; set; }
    public string? TookPart { get; set; }

    /// <summary>When the family was told; null where it was not yet.</summary>
    public LocalDate? FamilyToldOn { get; set; }

    /// <summary>The goals named for it; empty where it is not needed.</summary>
    public int[] Goals { get; set; } = [];
    public int EnteredBy { get; set; }

    /// <summary>False where another decision stands in its place.</summary>
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
