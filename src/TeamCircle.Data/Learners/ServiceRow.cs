using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Learners;

/// <summary>A service line of a plan: what stays the same over its versions (docs/rules.md, part 2).</summary>
public sealed class ServiceRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int PlanId { get; set; }

    /// <summary>The code of its first version; the line's name.</summary>
    public required string Code { get; set; }

    /// <summary>Order in the plan and in every list.</summary>
    public int Position { get; set; }
    public Discipline Discipline { get; set; }
    public ServiceKind Kind { get; set; }
    public Place Place { get; set; }
    public SessionFormat Format { get; set; }
    public LineTerms Terms { get; set; }
    public CoTreatment CoTreatment { get; set; }

    /// <summary>The line's own rule for short windows; null follows the agency's policy.</summary>
    public ShortWindow? ShortWindow { get; set; }
    public EveryUnit EveryUnit { get; set; }
    public int EveryCount { get; set; } = 1;
    public LocalDate FromDay { get; set; }
    public LocalDate ToDay { get; set; }

    /// <summary>Set where the plan's wording promises nothing that can be judged.</summary>
    public Wording? Wording { get; set; }

    /// <summary>Why it ends before the day first agreed; null where it does not.</summary>
    public string? EndReason { get; set; }

    /// <summary>The line in whose place this one came, where an amendment changed the kind of window.</summary>
    public int? ContinuesId { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>The amount of a service from a day on, until the next version of the same service.</summary>
public sealed class ServiceVersionRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int ServiceId { get; set; }

    /// <summary>The code under which this version came; unique in the agency, names the line like the first one.</summary>
    public required string Code { get; set; }
    public LocalDate FromDay { get; set; }

    /// <summary>Minutes per window.</summary>
    public int Quantity { get; set; }

    /// <summary>The high end of a range, shown only.</summary>
    public int? QuantityTo { get; set; }

    /// <summary>Sessions per window, where the plan promises them too.</summary>
    public int? Sessions { get; set; }

    /// <summary>Whether minutes that an assistant gives under a supervisor count for it.</summary>
    public bool AssistantsCount { get; set; }

    /// <summary>The plan's words as written, beside our reading of them.</summary>
    public string? PlanWords { get; set; }
    public string? PlanPage { get; set; }

    /// <summary>Why the plan was amended; null for the first version.</summary>
    public string? Reason { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>Who may give a service, and when. No row on a day: nobody is assigned then.</summary>
public sealed class AssignmentRow : ILearnerRow, IVersionedRow, ITakenBackRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int ServiceId { get; set; }
    public int PersonId { get; set; }
    public LocalDate FromDay { get; set; }
    public LocalDate ToDay { get; set; }
    public bool Live { get; set; } = true;
    public string? TakenBackReason { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }
}

/// <summary>What an agency that starts in mid-year had given before, in the window that was open then.</summary>
public sealed class BalanceRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int Id { get; set; }
    public int LearnerId { get; set; }
    public int ServiceId { get; set; }
    public LocalDate AsOf { get; set; }
    public int GivenBefore { get; set; }
    public int Version { get; set; }
}
