using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Sessions;

/// <summary>
/// What became of a visit: one learner's minutes for one service. Never edited: a correction is a new row that names
/// the one it replaces, and the old one's <see cref="Live"/> turns false first.
/// </summary>
public sealed class SessionRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public Guid Id { get; set; }
    public int LearnerId { get; set; }
    public int ServiceId { get; set; }
    public Guid VisitId { get; set; }
    public int ProviderId { get; set; }
    public LocalDate OnDay { get; set; }

    /// <summary>For a make-up: a day of the window that it pays; how it splits is computed, never stored.</summary>
    public LocalDate? PaysOn { get; set; }

    /// <summary>The award of compensatory services that it counts for; then it counts in no window of the service.</summary>
    public int? AwardId { get; set; }
    public VisitOutcome Outcome { get; set; }
    public LocalTime StartTime { get; set; }
    public LocalTime EndTime { get; set; }

    /// <summary>Minutes that do not count: travel, set-up, transfers.</summary>
    public int NotCounted { get; set; }

    /// <summary>Minutes that this line is credited with; 0 unless given, and while they are <see cref="Withheld"/>.</summary>
    public int Credited { get; set; }

    /// <summary>Why what was given counts no minutes, by the facts of its day when it was entered; null where it counts.</summary>
    public Withheld? Withheld { get; set; }

    /// <summary>Who supervised the assistant that gave it, on its day; null where no assistant gave it.</summary>
    public int? SupervisorId { get; set; }

    /// <summary>Null while an assistant's entry waits for a countersignature, with the time below; and where none is asked.</summary>
    public int? CountersignedBy { get; set; }
    public Instant? CountersignedAt { get; set; }

    /// <summary>Why the entry was sent back to the assistant instead of being countersigned; null where it was not.</summary>
    public string? SentBackWhy { get; set; }

    /// <summary>True: times typed or measured. False: times from the plan.</summary>
    public bool Observed { get; set; }
    public Reason? Reason { get; set; }
    public Place Place { get; set; }
    public SessionFormat Format { get; set; }
    public int? PartnerId { get; set; }

    /// <summary>For shared co-treatment: the minutes stated for this line.</summary>
    public int? SharedMinutes { get; set; }
    /// <summary>Why the named partner says that it was not given together; null while nobody said so.</summary>
    public string? DeclinedReason { get; set; }
    public string? Practised { get; set; }

    /// <summary>The learner's routines that were practised, as somebody said; empty where nobody said so.</summary>
    public int[] Routines { get; set; } = [];

    /// <summary>What filled the hour beside practice; empty where nobody said.</summary>
    public Filled[] Filled { get; set; } = [];
    public string? Present { get; set; }
    public string? Note { get; set; }
    public bool Live { get; set; } = true;
    public Guid? Replaces { get; set; }

    /// <summary>Why it was corrected; null for a first entry.</summary>
    public string? CorrectionReason { get; set; }

    /// <summary>Why it was taken back without another in its place; null for one that stands or was corrected.</summary>
    public string? TakenBackReason { get; set; }
    public SessionOrigin Origin { get; set; }
    public int RecordedBy { get; set; }
    public Instant RecordedAt { get; set; }
}

public enum SessionOrigin
{
    Page,
    File,
    Device,
}
