using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Calendar;

/// <summary>
/// Visits that recur: a rule, whose occurrences are rows of visits. (series, original local start) names an occurrence for ever.
/// </summary>
public sealed class SeriesRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public VisitKind Kind { get; set; }

    /// <summary>Null exactly for a kind other than <see cref="VisitKind.Service"/>.</summary>
    public int? ServiceId { get; set; }
    public int ProviderId { get; set; }
    public int? PartnerId { get; set; }

    /// <summary>RFC 5545 RRULE without its name, in local time: <c>FREQ=WEEKLY;INTERVAL=1;BYDAY=MO,WE</c>. Its end is <see cref="EndsOn"/>, never UNTIL.</summary>
    public required string Rule { get; set; }

    /// <summary>DTSTART's day: where counting by the rule begins. It need not be an occurrence.</summary>
    public LocalDate FirstDay { get; set; }

    /// <summary>The last day that may hold an occurrence; null: to the end of the plan.</summary>
    public LocalDate? EndsOn { get; set; }
    public LocalTime StartTime { get; set; }
    public int Minutes { get; set; }

    /// <summary>Name in the tz database, in which the local times are meant.</summary>
    public required string Zone { get; set; }
    public Place Place { get; set; }

    /// <summary>As of a visit: null for the learner's own place of that kind.</summary>
    public int? PlaceId { get; set; }
    public SessionFormat Format { get; set; }

    /// <summary>Same number: series whose occurrences at one time are one group session, or one co-treatment. Their visits have numbers of their own.</summary>
    public long GroupNo { get; set; }
    public long TogetherNo { get; set; }

    /// <summary>The last day up to which occurrences are rows; the nightly top-up goes on from here.</summary>
    public LocalDate WrittenTo { get; set; }

    /// <summary>The series that this one continues after "this and all that follow"; null for a first one.</summary>
    public int? ContinuesId { get; set; }

    /// <summary>False once it was undone: it has no visits that stand.</summary>
    public bool Live { get; set; } = true;
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
