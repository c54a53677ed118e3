using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Calendar;

/// <summary>A place in the agency's list. Its code stands on calendars that people see who may not know whose place it is.</summary>
public sealed class PlaceRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }

    /// <summary>Short, without a learner's name.</summary>
    public required string Code { get; set; }
    public required string Name { get; set; }
    public Place Kind { get; set; }
    public bool Live { get; set; } = true;
    public int Version { get; set; }
}

/// <summary>Which place of the list is a learner's home, school and so on. No row: nobody said, and no travel time is known.</summary>
public sealed class LearnerPlaceRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public Place Kind { get; set; }
    public int PlaceId { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>Minutes, and the distance, from one place to another. The way back takes as long, unless it has a row of its own. No row: unknown, not zero.</summary>
public sealed class TravelTimeRow : IAgencyRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int FromPlaceId { get; set; }
    public int ToPlaceId { get; set; }

    /// <summary>Whole minutes from door to door, 0 to 600.</summary>
    public int Minutes { get; set; }

    /// <summary>How far it is, in tenths of the agency's unit; null: not known.</summary>
    public int? Tenths { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
