using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Routines;

/// <summary>A routine's card as it was written once. A row is never changed: every save is another version.</summary>
public sealed class RoutineVersionRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int RoutineId { get; set; }

    /// <summary>1, 2, 3 … in a routine, as people call it.</summary>
    public int Number { get; set; }

    /// <summary>JSON of <see cref="Core.Routines.RoutineContent"/>.</summary>
    public required string Content { get; set; }
    public int WrittenBy { get; set; }
    public Instant WrittenAt { get; set; }
}

/// <summary>A licensed member of the team has reviewed a version.</summary>
public sealed class RoutineReviewRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int VersionId { get; set; }
    public int PersonId { get; set; }

    /// <summary>As which of their disciplines.</summary>
    public Discipline Discipline { get; set; }
    public LocalDate ReviewedOn { get; set; }
    public string? Note { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>What a picture of a routine shows.</summary>
public enum PictureKind
{
    /// <summary>The object cue.</summary>
    Cue,

    /// <summary>Position, light and things as they are set up.</summary>
    SetUp,

    /// <summary>How the switch is mounted.</summary>
    Mount,
}

/// <summary>A picture of a routine, made anew from what was sent so that no place, time or camera stays in it.</summary>
public sealed class RoutinePictureRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int RoutineId { get; set; }
    public PictureKind Kind { get; set; }

    /// <summary>JPEG, at most 1,600 pixels wide and high.</summary>
    public required byte[] Jpeg { get; set; }
    public int Width { get; set; }
    public int Height { get; set; }

    /// <summary>What it shows, for those who do not see it.</summary>
    public required string Words { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
