using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>
/// A time in which a learner cannot be visited. Planned visits in it are called off with its id; what they would have given stays
/// undecided until people decide.
/// </summary>
public sealed class AwayRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public AwayReason Reason { get; set; }

    /// <summary>The first day away.</summary>
    public LocalDate FromDay { get; set; }

    /// <summary>The last day away, which belongs to it; null while nobody knows.</summary>
    public LocalDate? UntilDay { get; set; }

    /// <summary>The team's words; never shown to families, never in a mail.</summary>
    public string? Note { get; set; }

    /// <summary>False once it was taken back: the learner was not away.</summary>
    public bool Live { get; set; } = true;
    public int RecordedBy { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
