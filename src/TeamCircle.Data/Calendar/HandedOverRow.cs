using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Calendar;

/// <summary>
/// A visit as a person had it before it went to somebody else: their own calendar is to be told that it is off. Written by the database
/// whenever a visit changes hands, by whatever way; it means nothing while the visit is theirs again.
/// </summary>
public sealed class HandedOverRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int LearnerId { get; set; }
    public Guid VisitId { get; set; }

    /// <summary>Who had it.</summary>
    public int PersonId { get; set; }
    public LocalDate OnDay { get; set; }
    public LocalTime StartTime { get; set; }
    public int Minutes { get; set; }
    public required string Zone { get; set; }
    public Place Place { get; set; }
    public int? PlaceId { get; set; }

    /// <summary>RFC 5545 SEQUENCE of the cancellation: above any under which they had the visit.</summary>
    public int Sequence { get; set; }

    /// <summary>When it last went from them.</summary>
    public Instant At { get; set; }
}
