using TeamCircle.Core.Practice;

namespace TeamCircle.Data.Practice;

/// <summary>One practice of one version of a routine, as it was recorded. Never edited.</summary>
public sealed class PracticeRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public Guid Id { get; set; }
    public int LearnerId { get; set; }
    public int RoutineId { get; set; }
    public int VersionId { get; set; }
    public Guid? VisitId { get; set; }

    /// <summary>Who practised with the learner.</summary>
    public int ProviderId { get; set; }
    public PracticeEntry Entry { get; set; }

    /// <summary>By the portal's clock: what the device's clock showed, less <see cref="SkewMs"/>.</summary>
    public Instant StartedAt { get; set; }

    /// <inheritdoc cref="StartedAt"/>
    public Instant EndedAt { get; set; }

    /// <summary>The agency's date of <see cref="StartedAt"/>.</summary>
    public LocalDate OnDay { get; set; }

    /// <summary>JSON of the <see cref="PracticeRecord"/>, as it came.</summary>
    public required string Record { get; set; }

    /// <summary>How far the device's clock was ahead of the portal's at its last contact; null where it never heard of it.</summary>
    public int? SkewMs { get; set; }

    /// <summary>Null for one that was filled in on a page.</summary>
    public Guid? DeviceId { get; set; }

    /// <summary>The practice that this one scored as a second observer; null for a first one, and while the practice of that code has not arrived.</summary>
    public Guid? Observes { get; set; }

    /// <summary>The <see cref="ObserverCode"/> of the practice that it scored; null for a first one. Only where this is null is it counted as a practice.</summary>
    public string? ObservesCode { get; set; }

    /// <summary>The holds that lay on it when it took place, where a person entered it knowing so; empty otherwise.</summary>
    public int[] UnderHolds { get; set; } = [];

    /// <summary>What that person said; null where there was no hold.</summary>
    public string? UnderHoldsWord { get; set; }
    public bool Live { get; set; } = true;
    public int RecordedBy { get; set; }
    public Instant RecordedAt { get; set; }
}

/// <summary>One trial with its figures (docs/rules.md, part 11), for what is read over many practices. The practice's record is the truth.</summary>
/// <remarks>Times are milliseconds from the end of the cue. What a second observer scored has none, so that no figure counts a trial twice.</remarks>
public sealed class TrialRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public Guid Id { get; set; }
    public int LearnerId { get; set; }
    public Guid PracticeId { get; set; }

    /// <summary>The step's key in the routine's versions.</summary>
    public required string Step { get; set; }

    /// <summary>The goals that the step served in the version that was practised.</summary>
    public int[] Goals { get; set; } = [];
    public TrialEnd Ending { get; set; }
    public int? PromptsNeeded { get; set; }
    public ResponseKind? Response { get; set; }
    public int? TimeToRespond { get; set; }
    public int? Completed { get; set; }
    public int? CensoredAt { get; set; }

    /// <summary>The silent wait that ended in a response.</summary>
    public int? Waited { get; set; }
    public bool? WaitKept { get; set; }
    public bool AtOnce { get; set; }
    public bool Counts { get; set; }
    public bool Remembered { get; set; }

    /// <summary>That of its practice.</summary>
    public bool Live { get; set; } = true;
}
