namespace TeamCircle.Data.Quiet;

/// <summary>
/// A learner's quiet: a child has died or is dying, and nothing that the portal does by itself reminds anybody of them. Set once, ended
/// once, each by a named person with a reason.
/// </summary>
public sealed class QuietRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public required string Reason { get; set; }

    /// <summary>Who asked for it or brought word, in words.</summary>
    public required string NamedBy { get; set; }
    public int SetBy { get; set; }
    public Instant SetAt { get; set; }

    /// <summary>Null while it stands, with the two that follow.</summary>
    public int? EndedBy { get; set; }
    public Instant? EndedAt { get; set; }
    public string? EndedReason { get; set; }
    public int Version { get; set; }
}
