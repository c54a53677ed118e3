using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>
/// A routine of one learner, as calendars name it. How it is done stands on its card, in versions; the object cue and the place are the newest
/// version's, kept here too for those who only name it.
/// </summary>
public sealed class RoutineRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public required string Name { get; set; }

    /// <summary>The object that tells the learner what comes next, in words; null where none is agreed.</summary>
    public string? ObjectCue { get; set; }

    /// <summary>Where it is done; null: wherever the learner is.</summary>
    public Place? Place { get; set; }

    /// <summary>False once it has ended: it is planned and practised no more, and its card can still be read.</summary>
    public bool Live { get; set; } = true;

    /// <summary>Null while it is live, with the two that follow.</summary>
    public LocalDate? EndedOn { get; set; }
    public int? EndedBy { get; set; }
    public string? EndedReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>A routine to be practised at a visit.</summary>
public sealed class VisitRoutineRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int LearnerId { get; set; }
    public Guid VisitId { get; set; }
    public int RoutineId { get; set; }
}

/// <summary>A routine that each new occurrence of a series begins with; afterwards the visit's own rows hold.</summary>
public sealed class SeriesRoutineRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int LearnerId { get; set; }
    public int SeriesId { get; set; }
    public int RoutineId { get; set; }
}

/// <summary>Whether a routine was practised at home on a day, as the people there told it: entered by staff in their words, or tapped by them.</summary>
public sealed class HomeLogRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int RoutineId { get; set; }
    public LocalDate OnDay { get; set; }

    /// <summary>Who practised, in words.</summary>
    public required string Who { get; set; }

    /// <summary>How it went, in the words of who was there; null where nothing was said.</summary>
    public string? HowItWent { get; set; }
    public HomeAnswer Answer { get; set; }

    /// <summary>Who entered it.</summary>
    public int RecordedBy { get; set; }

    /// <summary>True: tapped by the family on its page.</summary>
    public bool ByFamily { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>What the people at home practise between visits: every such weekday, or on one day.</summary>
public sealed class HomePracticeRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int RoutineId { get; set; }

    /// <summary>Exactly one of the two is set.</summary>
    public IsoDayOfWeek? Weekday { get; set; }
    public LocalDate? OnDay { get; set; }

    /// <summary>Who practises, in words.</summary>
    public string? Who { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
