using NodaTime;

namespace TeamCircle.Core.Papers;

/// <summary>What has to have happened by a day.</summary>
public enum BoundKind
{
    /// <summary>Of the plan, at least once a year (34 CFR 300.324(b)(1)(i)).</summary>
    AnnualReview,

    /// <summary>At least once every three years (34 CFR 300.303(b)(2)).</summary>
    Reevaluation,
    VisionEvaluation,
    MediaEvaluation,

    /// <summary>Whether an extended school year is needed (34 CFR 300.106).</summary>
    ExtendedYear,

    /// <summary>A progress report to the parents (34 CFR 300.320(a)(3)(ii)).</summary>
    Report,

    /// <summary>A physician's orders, where therapy needs them.</summary>
    Orders,
    HealthPlan,
    Consent,

    /// <summary>Of a device or aid: the day by which the team decides on it.</summary>
    Trial,

    /// <summary>The family has the pack for a meeting.</summary>
    Pack,

    /// <summary>The last day of a licence of somebody on the team.</summary>
    Licence,
    Other,

    /// <summary>The last day on which the review of a routine's card holds.</summary>
    RoutineReview,
}

/// <summary>How near a day is that binds, in calendar days.</summary>
public enum Nearness
{
    /// <summary>The day has passed.</summary>
    Overdue,

    /// <summary>Today, or at most 30 days ahead.</summary>
    Within30,
    Within60,
    Within90,
    Later,
}

/// <summary>Something that has to have happened by a day, and has not.</summary>
/// <param name="Due">The last day on which it is in time.</param>
/// <param name="About">What it rests on, in people's words; for a report the name of its period, for a review that of the routine. Null where its kind says all.</param>
public sealed record BoundDate(int Learner, BoundKind Kind, LocalDate Due, string? About)
{
    /// <summary>The row that people keep; null for what another part of the record knows by itself.</summary>
    public int? Id { get; init; }

    /// <summary>For a trial: its first day.</summary>
    public LocalDate? From { get; init; }

    public string? Note { get; init; }

    /// <summary>After how many months it comes round again; null for once.</summary>
    public int? RepeatMonths { get; init; }

    /// <summary>For a report that has been begun, for a pack and for a routine: its id.</summary>
    public int? Paper { get; init; }

    /// <summary>Whether people keep it, and not another part of the record.</summary>
    public bool IsKept => Id is not null;
}
