using TeamCircle.Core.Things;

namespace TeamCircle.Data.Things;

/// <summary>An aid, device, material or training that was promised. What happened to it stands in <see cref="ThingEventRow"/>.</summary>
public sealed class ThingRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public ThingKind Kind { get; set; }
    public required string Name { get; set; }

    /// <summary>The plan's own words; null where nobody typed them.</summary>
    public string? PlanWords { get; set; }

    /// <summary>Whose job it is that it is there and works.</summary>
    public int OwnerId { get; set; }
    public LocalDate PromisedOn { get; set; }

    /// <summary>The last day by which it is promised; null where the plan names none.</summary>
    public LocalDate? DueOn { get; set; }

    /// <summary>The learner's goals whose data it bears on: their charts show when it was out of order.</summary>
    public int[] Goals { get; set; } = [];

    /// <summary>The learner's routines that use it: their cards say when it is out of order.</summary>
    public int[] Routines { get; set; } = [];
    public int EnteredBy { get; set; }
    public Instant EnteredAt { get; set; }

    /// <summary>The last day on which it was promised; null while it is, with the two that follow.</summary>
    public LocalDate? EndedOn { get; set; }
    public string? EndedWhy { get; set; }
    public int? EndedBy { get; set; }
    public int Version { get; set; }
}

/// <summary>What happened to a thing on a day. Set right by taking it back and noting it anew.</summary>
public sealed class ThingEventRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int ThingId { get; set; }
    public ThingAct Act { get; set; }
    public LocalDate OnDay { get; set; }
    public string? Words { get; set; }
    public string? Meanwhile { get; set; }

    /// <summary>Where it is from then on; null where it did not move.</summary>
    public ThingPlace? Place { get; set; }
    public int EnteredBy { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }

    internal ThingDay Entry => new(Id, OnDay, Act, Words, Meanwhile, Place);
}
