using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Commitments;

/// <summary>How one service, or the probes of one goal, was worked out in a reporting period, with every fact behind it.</summary>
/// <param name="Lines">One for a service; for a goal one for each owner of whom probes are asked, and for each kind of window it had.</param>
/// <param name="Periods">All reporting periods, oldest first, to choose from.</param>
public sealed record LedgerPage(
    AgencyRules Rules, PeriodRow Period, LocalDate AsOf, AuditNames Names, IReadOnlyList<LedgerLine> Lines, IReadOnlyList<PeriodRow> Periods)
{
    /// <summary>What the plan says in its own words, version by version; empty for a goal.</summary>
    public IReadOnlyList<ServiceVersionRow> Versions { get; init; } = [];

    /// <summary>The goal; null for a service.</summary>
    public GoalRow? Goal { get; init; }
}

/// <summary>One line with its working, and the rows that its entries came from.</summary>
/// <param name="Given">The facts behind <see cref="Working.GivenEntries"/>, in the same order.</param>
/// <param name="Planned">The facts behind <see cref="Working.PlannedEntries"/>, in the same order.</param>
/// <param name="Decisions">The rows behind <see cref="Working.Decisions"/>, in the same order.</param>
/// <param name="NotGiven">Visits offered and not taken up, or not offered, up to the as-of day: on record with 0 minutes.</param>
public sealed record LedgerLine(
    CommitmentLine Line, Working Working, IReadOnlyList<EntryFact> Given, IReadOnlyList<EntryFact> Planned,
    IReadOnlyList<DecisionRow> Decisions, IReadOnlyList<EntryFact> NotGiven);

/// <summary>A visit or probe as it stands on record.</summary>
/// <param name="VisitId">The visit; null for a probe and for what an agency brought along.</param>
/// <param name="ProbeId">The probe; null for a visit.</param>
/// <param name="ProviderId">0 for what an agency brought along.</param>
/// <param name="End">Null for a probe and for what an agency brought along.</param>
/// <param name="NotCounted">Minutes of it that do not count.</param>
/// <param name="IsObserved">False where the times are from the plan.</param>
public sealed record EntryFact(
    Guid? VisitId, Guid? ProbeId, LocalDate OnDay, int ProviderId, LocalTime? Start, LocalTime? End, int NotCounted, bool IsObserved,
    VisitOutcome Outcome, Reason? Reason, Place? Place, SessionFormat? Format, decimal? Value)
{
    /// <summary>When it was entered, or last corrected; null for what an agency brought along or a file brought, and for a visit to come.</summary>
    public Instant? RecordedAt { get; init; }

    /// <summary>Why it counts no minutes though it was given; null where it counts.</summary>
    public Withheld? Withheld { get; init; }

    /// <summary>Days from the visit to the day on which it was entered, where a sealed statement says so.</summary>
    public int? EnteredAfter { get; init; }

    /// <summary>Whether it stands in the place of an earlier entry.</summary>
    public bool IsCorrected { get; init; }
}
