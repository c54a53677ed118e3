namespace TeamCircle.Data.Learners;

public sealed class LearnerRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }

    /// <summary>The agency's own short code; what goes where a name must not.</summary>
    public required string Code { get; set; }
    public required string Name { get; set; }

    /// <summary>Most minutes of the learner's own time a day, over all services.</summary>
    public int MostMinutesADay { get; set; }

    /// <summary>The district that sends the learner to the agency, where several do; null where nobody said.</summary>
    public string? SendingDistrict { get; set; }
    public int Version { get; set; }

    /// <summary>As it is kept: what was typed without the spaces around it; null for nothing.</summary>
    internal static string? District(string? typed) => string.IsNullOrWhiteSpace(typed) ? null : typed.Trim();
}

/// <summary>A plan (IEP) with its dates. An amendment is a new version of a service, not of the plan's dates.</summary>
public sealed class PlanRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public LocalDate StartDay { get; set; }
    public LocalDate EndDay { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>One part of "How we teach": owned by a discipline (or by none: the case manager's), dated, in the team's words.</summary>
public sealed class TeachPartRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public Core.Learners.TeachPart Part { get; set; }
    public Core.Learners.Discipline? Owner { get; set; }
    public required string Text { get; set; }
    public LocalDate WrittenOn { get; set; }
    public int WrittenBy { get; set; }
    public int Version { get; set; }
}
