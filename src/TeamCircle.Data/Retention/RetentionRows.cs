using TeamCircle.Core.Retention;

namespace TeamCircle.Data.Retention;

/// <summary>How long a part of every record is kept. Written once; the newest of a kind is in force, and where there is none, nothing is destroyed.</summary>
public sealed class RetentionRuleRow : IAgencyRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public RecordKind Kind { get; set; }

    /// <summary>Null: kept, without end.</summary>
    public int? Years { get; set; }
    public CountedFrom? CountedFrom { get; set; }

    /// <summary>Calendar days that a family has after it was told.</summary>
    public int NoticeDays { get; set; }
    public required string Reason { get; set; }
    public int SetBy { get; set; }
    public Instant SetAt { get; set; }
}

/// <summary>
/// One part of one learner's record that is to be, or was, destroyed: from the proposal to what remains of it. Who asked, what was found and
/// what was done stay as they were written.
/// </summary>
public sealed class DestructionRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public RecordKind Kind { get; set; }

    /// <summary>Entries of this day and before.</summary>
    public LocalDate UpTo { get; set; }

    /// <summary>The rule that proposes it; null where the family asked.</summary>
    public int? RuleId { get; set; }
    public string? AskedBy { get; set; }
    public LocalDate? AskedOn { get; set; }

    /// <summary>Entries found at the proposal.</summary>
    public int Found { get; set; }
    public LocalDate ProposedOn { get; set; }
    public int NoticeDays { get; set; }

    /// <summary>When the family was told, with the three that follow; a family that asked itself was told on the day it asked.</summary>
    public LocalDate? NoticeOn { get; set; }
    public string? ToWhom { get; set; }
    public string? Way { get; set; }

    /// <summary>The first day on which a director may agree.</summary>
    public LocalDate? WaitUntil { get; set; }
    public int? AgreedBy { get; set; }
    public Instant? AgreedAt { get; set; }
    public int? StoppedBy { get; set; }
    public Instant? StoppedAt { get; set; }
    public string? StoppedWhy { get; set; }

    /// <summary>By the database's own function, with all that follow; nobody else can write them.</summary>
    public int? DestroyedBy { get; set; }
    public Instant? DestroyedAt { get; set; }

    /// <summary>Entries removed or emptied.</summary>
    public int? Destroyed { get; set; }

    /// <summary>Changes of the trail whose contents were emptied with them, and SHA-256 (hexadecimal) over their numbers in order, with commas between.</summary>
    public int? Emptied { get; set; }

    /// <inheritdoc cref="Emptied"/>
    public string? EmptiedHash { get; set; }
    public int Version { get; set; }
}
