using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Sessions;

/// <summary>One visit: what was planned, what was recorded and corrected, and who may record more.</summary>
/// <param name="Planned">Null where nobody had scheduled it.</param>
/// <param name="MayRecord">Whether the reader may log, correct and take back.</param>
/// <param name="MayNameOthers">Whether the reader may say that somebody else gave it.</param>
/// <param name="Sessions">All that was ever recorded about it, the latest first.</param>
/// <param name="Team">Who works with the learner today.</param>
/// <param name="Group">Other learners' visits of the same group session, as far as the reader may see them.</param>
/// <param name="Routines">Those planned for it, and others that were logged as practised.</param>
public sealed record VisitPage(
    Guid Id, int Version, VisitService Service, Colleague Provider, LocalDate OnDay, VisitState State, PlannedTimes? Planned,
    Reason? CalledOff, LocalDate? PaysOn, int? PartnerId, bool MayRecord, bool MayNameOthers,
    IReadOnlyList<SessionOnRecord> Sessions, IReadOnlyList<Colleague> Team, IReadOnlyList<GroupMate> Group,
    IReadOnlyList<VisitRoutine> Routines)
{
    /// <summary>What was practised at it so far; null where nothing was, and once it is logged or called off.</summary>
    public PractisedAtVisit? Practised { get; init; }

    /// <summary>What stops something at it; none once it is logged or called off.</summary>
    public IReadOnlyList<HoldShown> Holds { get; init; } = [];

    /// <summary>The hold on records that keeps its day as it is; null where none does.</summary>
    public RecordHoldShown? RecordHold { get; init; }

    /// <summary>Whether the reader stands in today and has not said yet that they read first how the learner is taught.</summary>
    public bool MustReadFirst { get; init; }

    /// <summary>Whether a closed count holds its day: then it changes only by a restatement of the count.</summary>
    public bool InClosedCount { get; init; }

    /// <summary>The award of compensatory services that it is for; null for one that counts for the service.</summary>
    public int? AwardId { get; init; }

    /// <summary>Awards that a visit of this service can be for.</summary>
    public IReadOnlyList<AwardChoice> Awards { get; init; } = [];

    /// <summary>The award that it is for; null where it is for none.</summary>
    public AwardChoice? Award => Awards.FirstOrDefault(a => a.Id == AwardId);

    /// <summary>What stands; null where nothing was logged, or it was taken back.</summary>
    public SessionOnRecord? Standing => Sessions.FirstOrDefault(s => s.Live);
}

/// <summary>What a visit is for: a service, with what it promises about how it is given, or something that credits none.</summary>
/// <param name="Id">The service; null for a visit of another kind, as is its discipline.</param>
public sealed record VisitService(
    int? Id, int LearnerId, string Learner, VisitKind Kind, Discipline? Discipline, Place Place, SessionFormat Format, CoTreatment CoTreatment);

public sealed record Colleague(int Id, string Name);

public sealed record VisitRoutine(int Id, string Name);

/// <summary>What the practices at a visit say about it; a second observer's say nothing.</summary>
/// <param name="Start">When the first of them began.</param>
/// <param name="End">When the last of them ended.</param>
/// <param name="Filled">What filled the hour, in all.</param>
public sealed record PractisedAtVisit(LocalTime Start, LocalTime End, IReadOnlyList<int> Routines, IReadOnlyList<Filled> Filled);

public sealed record GroupMate(Guid Visit, string Learner, Discipline Discipline);

/// <summary>Where an assistant's entry stands.</summary>
/// <param name="SupervisorId">Who supervised on its day.</param>
/// <param name="By">Who countersigned it; null while it waits.</param>
/// <param name="At">In the agency's zone.</param>
/// <param name="SentBack">The word with which it was sent back; null where it was not.</param>
public sealed record Countersigning(int SupervisorId, string Supervisor, Colleague? By, LocalDateTime? At, string? SentBack);

/// <summary>A session as it was recorded.</summary>
/// <param name="IsConfirmed">For a co-treatment: whether the partner has a session of their own.</param>
/// <param name="RecordedAt">In the agency's zone.</param>
/// <param name="DeclinedReason">Why the partner says that it was not given together; null while nobody said so.</param>
public sealed record SessionOnRecord(
    Guid Id, bool Live, VisitOutcome Outcome, LocalDate OnDay, LocalTime Start, LocalTime End, bool Observed, int NotCounted, int Credited,
    Reason? Reason, LocalDate? PaysOn, Place Place, SessionFormat Format, Colleague Provider, Colleague? Partner, bool IsConfirmed,
    int? SharedMinutes, string? Practised, string? Present, string? Note, Guid? Replaces, string? CorrectionReason, string? TakenBackReason,
    string RecordedBy, LocalDateTime RecordedAt, bool IsOwnOfToday, string? DeclinedReason,
    IReadOnlyList<VisitRoutine> Routines, IReadOnlyList<Filled> Filled)
{
    /// <summary>Why it counts no minutes though it was given; null where it counts.</summary>
    public Withheld? Withheld { get; init; }

    /// <summary>Whether whoever gave it stood in for somebody on that day.</summary>
    public bool IsNewPerson { get; init; }

    /// <summary>Of an assistant's entry: who supervised on its day, and who countersigned when; null for everybody else's.</summary>
    public Countersigning? Countersigning { get; init; }

    /// <summary>False where the reader's colleague led a co-treatment that credits the lead only.</summary>
    public bool Led => Partner is null || SharedMinutes != 0;
}
