using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>
/// Something is not practised until a person says so: after a stay in hospital, surgery, a new chair, a new seizure pattern. It lies on
/// a routine, one of its steps, a part of "How we teach", or a service. A row is written once and ended once.
/// </summary>
public sealed class HoldRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }

    /// <summary>Exactly one of this, <see cref="TeachPart"/> and <see cref="ServiceId"/> is set.</summary>
    public int? RoutineId { get; set; }

    /// <summary>One step of the routine; null: the whole.</summary>
    public string? StepKey { get; set; }
    public TeachPart? TeachPart { get; set; }

    /// <summary>Nothing is practised at the visits of this service, or of one that continues it.</summary>
    public int? ServiceId { get; set; }
    public required string Reason { get; set; }
    public HoldWord ToldAs { get; set; }

    /// <summary>The name of whoever gave the word, and when; null where it was the setter's own.</summary>
    public string? ToldBy { get; set; }
    public LocalDate? ToldOn { get; set; }

    /// <summary>Null also where only the day is known.</summary>
    public LocalTime? ToldTime { get; set; }
    public int SetBy { get; set; }
    public Instant SetAt { get; set; }

    /// <summary>Null while it stands, with the two that follow.</summary>
    public int? EndedBy { get; set; }
    public Instant? EndedAt { get; set; }
    public string? EndedWord { get; set; }

    /// <summary>The licensed person who agreed, by name and profession; null where the owning discipline ended it and named nobody.</summary>
    public string? AgreedBy { get; set; }
    public int Version { get; set; }

    public HoldPlace Place => new(RoutineId, StepKey, TeachPart, ServiceId);
}

/// <summary>A person has seen the cautions of a routine in full.</summary>
public sealed class CautionsSeenRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int LearnerId { get; set; }
    public int PersonId { get; set; }
    public int RoutineId { get; set; }

    /// <summary>Which cautions (<see cref="CautionMarks"/>).</summary>
    public required string Mark { get; set; }
    public Instant SeenAt { get; set; }
}
