namespace TeamCircle.Data.Disputes;

/// <summary>
/// What was recorded of one learner between two days is kept as it is: the database refuses to correct, take back or move it while this stands.
/// Written once and ended once.
/// </summary>
public sealed class RecordHoldRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>Both days belong to it.</summary>
    public LocalDate FromDay { get; set; }

    /// <inheritdoc cref="FromDay"/>
    public LocalDate ToDay { get; set; }
    public required string Reason { get; set; }
    public int SetBy { get; set; }

    /// <summary>By the database's clock, as what is recorded: an entry before it was made without the hold.</summary>
    public Instant SetAt { get; set; }

    /// <summary>Null while it stands, with the two that follow.</summary>
    public int? EndedBy { get; set; }

    /// <summary>By the database's clock, which sets it.</summary>
    public Instant? EndedAt { get; set; }
    public string? EndedWord { get; set; }
    public int Version { get; set; }
}
