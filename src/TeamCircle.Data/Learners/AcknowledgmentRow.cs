namespace TeamCircle.Data.Learners;

/// <summary>That a person has read a learner's plan and knows their part in it (34 CFR 300.323(d)), as the plan stood then. Never changed.</summary>
public sealed class AcknowledgmentRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int PlanId { get; set; }
    public int PersonId { get; set; }

    /// <summary>The state of the plan that was read (<see cref="Core.Learners.PlanState"/>).</summary>
    public int State { get; set; }
    public LocalDate OnDay { get; set; }
    public Instant At { get; set; }
}
