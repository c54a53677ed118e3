using TeamCircle.Core.Time;

namespace TeamCircle.Data.People;

/// <summary>How often somebody watches an assistant at work with one learner: a commitment of its own beside the services.</summary>
public sealed class SupervisionRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int AssistantId { get; set; }

    /// <summary>Weeks or months only.</summary>
    public EveryUnit EveryUnit { get; set; }
    public int EveryCount { get; set; } = 1;

    /// <summary>Both days belong to it; no last day means open.</summary>
    public LocalDate FromDay { get; set; }
    public LocalDate? ToDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>One supervision visit that took place.</summary>
public sealed class ObservationRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int AssistantId { get; set; }
    public int ObserverId { get; set; }
    public LocalDate OnDay { get; set; }

    /// <summary>Whole minutes; no minutes of any service.</summary>
    public int Minutes { get; set; }

    /// <summary>True: the observer saw the assistant with the learner. False: they went through it together afterwards.</summary>
    public bool Direct { get; set; }

    /// <summary>What was seen and agreed, for the team only.</summary>
    public string? Note { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>That a substitute read how the learner is taught, on the day on which they stood in. Written once a day, never changed.</summary>
public sealed class ReadFirstRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int LearnerId { get; set; }
    public int PersonId { get; set; }
    public LocalDate OnDay { get; set; }
    public Instant At { get; set; }
}
