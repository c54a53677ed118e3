namespace TeamCircle.Data.Closing;

/// <summary>
/// One learner's count for one reporting period. The row is there from the first dated fact on; every write of a dated
/// fact locks it, closing locks it for itself, and a closed one refuses writes in the database.
/// </summary>
public sealed class LearnerPeriodRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int LearnerId { get; set; }
    public int PeriodId { get; set; }
    public Instant? ClosedAt { get; set; }
    public int? ClosedBy { get; set; }

    /// <summary>
    /// For a closed count: the days that bear on it, from the first day of the windows that close in the period, or the period's own first
    /// day, to the last one of either. Null: the period's days. A day without school after the period may still lie in a week that closed in it.
    /// </summary>
    public LocalDate? FirstDay { get; set; }
    public LocalDate? LastDay { get; set; }
}
