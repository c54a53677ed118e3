namespace TeamCircle.Data.Calendar;

/// <summary>One span of hours of a weekday, as <see cref="WorkingHoursRow"/> tells.</summary>
internal interface IHoursRow : ITakenBackRow
{
    IsoDayOfWeek Weekday { get; set; }
    LocalTime FromTime { get; set; }
    LocalTime ToTime { get; set; }
    LocalDate FromDay { get; set; }
    LocalDate? ToDay { get; set; }
}

/// <summary>Hours of a weekday in which a person works. Several rows for one weekday are several spans; no row: they do not work then.</summary>
public sealed class WorkingHoursRow : IAgencyRow, IVersionedRow, IHoursRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int PersonId { get; set; }
    public IsoDayOfWeek Weekday { get; set; }

    /// <summary>Local times of the agency's zone; the end does not belong to them.</summary>
    public LocalTime FromTime { get; set; }
    public LocalTime ToTime { get; set; }

    /// <summary>The first and the last day on which this holds; null: until further notice.</summary>
    public LocalDate FromDay { get; set; }
    public LocalDate? ToDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>Hours of a weekday in which a learner can be visited, as the family and the school say. As <see cref="WorkingHoursRow"/>.</summary>
public sealed class OpenHoursRow : ILearnerRow, IVersionedRow, IHoursRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public IsoDayOfWeek Weekday { get; set; }
    public LocalTime FromTime { get; set; }
    public LocalTime ToTime { get; set; }
    public LocalDate FromDay { get; set; }
    public LocalDate? ToDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}
