namespace TeamCircle.Data.Learners;

public sealed class LearnerRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }

    /// <summary>The agency's own short code; what goes where a name must not.</summary>
    public required string Code { get; set; }

    /// <summary>The name that the learner goes by: pages show it, the family's too.</summary>
    public required string Name { get; set; }

    /// <summary>The name that documents bear; null where it is the same.</summary>
    public string? LegalName { get; set; }

    /// <summary>Most minutes of the learner's own time a day, over all services.</summary>
    public int MostMinutesADay { get; set; }

    /// <summary>The district that sends the learner to the agency, where several do; null where nobody said.</summary>
    public string? SendingDistrict { get; set; }

    /// <summary>The learner under whom all goes on, where this one was entered twice; null for all others.</summary>
    public int? JoinedTo { get; set; }
    public Instant? JoinedAt { get; set; }
    public int? JoinedBy { get; set; }
    public string? JoinedReason { get; set; }
    public int Version { get; set; }

    /// <summary>As it is kept: what was typed without the spaces around it; null for nothing.</summary>
    internal static string? District(string? typed) => string.IsNullOrWhiteSpace(typed) ? null : typed.Trim();
}

/// <summary>A legal name that a learner bore before, kept apart from the learner's own row: who opens a page does not meet it.</summary>
public sealed class LearnerNameRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public required string Name { get; set; }

    /// <summary>The first day of the name after it: what was sealed before that day bears this one.</summary>
    public LocalDate UntilDay { get; set; }

    /// <summary>What the change rests on, in words.</summary>
    public required string Paper { get; set; }
    public int ChangedBy { get; set; }
    public Instant ChangedAt { get; set; }
}

/// <summary>A learner's day of birth, kept apart from the learner's own row: only the case manager reads it.</summary>
public sealed class BirthRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public LocalDate BornOn { get; set; }

    /// <summary>When the learner and the parents were told that rights pass (34 CFR 300.520(a)(3), 300.320(c)); null until they were.</summary>
    public LocalDate? ToldOn { get; set; }

    /// <summary>Who told whom, and how.</summary>
    public string? ToldWords { get; set; }
    public int EnteredBy { get; set; }
    public int Version { get; set; }
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
