using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Learners;

/// <summary>All that a learner's one page shows, but where services and probes stand.</summary>
/// <param name="Plan">The plan in force, else the one that begins next or ended last; null where there is none.</param>
public sealed record LearnerPage(
    int Id, string Code, string Name, int MostMinutesADay, DateInterval? Plan, IReadOnlyList<PartShown> Parts,
    IReadOnlyList<ServiceShown> Services, IReadOnlyList<GoalShown> Goals, IReadOnlyList<MemberShown> Team, IReadOnlyList<VisitShown> Visits,
    IReadOnlyList<RoutineNamed> Routines)
{
    /// <summary>The holds that stand, newest first.</summary>
    public IReadOnlyList<HoldShown> Holds { get; init; } = [];

    /// <summary>Since when the learner is quiet, in the agency's zone; null where they are not.</summary>
    public LocalDate? QuietSince { get; init; }

    /// <summary>Things that were promised and are not in place, or out of order.</summary>
    public IReadOnlyList<ThingWaits> Things { get; init; } = [];

    /// <summary>The learner's last day here; null where the learner stays.</summary>
    public LocalDate? LastDay { get; init; }

    /// <summary>Since when services comparable to a plan from elsewhere are given; null where none are.</summary>
    public LocalDate? ComparableSince { get; init; }

    /// <summary>The holds on records that stand.</summary>
    public IReadOnlyList<RecordHoldShown> RecordHolds { get; init; } = [];
}

/// <param name="Review">Where the review of its card stands; null where nobody has written the card yet.</param>
public sealed record RoutineNamed(int Id, string Name, string? ObjectCue, ReviewState? Review);

/// <param name="Owner">The discipline that keeps it; null: the case manager.</param>
/// <param name="Text">Null where nobody has written it yet.</param>
/// <param name="WrittenBy">A name; null with the text.</param>
/// <param name="MayWrite">Whether this caller may write it.</param>
public sealed record PartShown(TeachPart Part, Discipline? Owner, string? Text, LocalDate? WrittenOn, string? WrittenBy, bool MayWrite);

/// <param name="Versions">Oldest first; each holds until the next.</param>
/// <param name="Assigned">Who may give it, with dates, whether past or to come; empty: nobody yet.</param>
public sealed record ServiceShown(
    int Id, Discipline Discipline, ServiceKind Kind, Place Place, SessionFormat Format, LineTerms Terms, CoTreatment CoTreatment,
    Core.Commitments.ShortWindow? ShortWindow, Every Every, LocalDate From, LocalDate To, Wording? Wording, string? EndReason,
    IReadOnlyList<AmountShown> Versions, IReadOnlyList<PersonDates> Assigned)
{
    /// <summary>The version in force on a day, or the first one before the service begins.</summary>
    public AmountShown? On(LocalDate day) => Versions.LastOrDefault(v => v.From <= day) ?? (Versions.Count > 0 ? Versions[0] : null);

    public IEnumerable<PersonDates> AssignedOn(LocalDate day) => Assigned.Where(a => a.From <= day && day <= a.To);
}

public sealed record AmountShown(LocalDate From, int Minutes, int? MinutesTo, int? Sessions, string? PlanWords, string? PlanPage, string? Reason);

public sealed record PersonDates(string Name, LocalDate From, LocalDate To);

/// <param name="Asked">The probe commitment in force today, or the first to come; null where none is asked.</param>
public sealed record GoalShown(
    int Id, string Area, string Statement, decimal? Target, LocalDate? TargetDay, GoalTerms Terms, LocalDate From, LocalDate To,
    ProbesAsked? Asked, IReadOnlyList<PersonDates> Owners, IReadOnlyList<ObjectiveShown> Objectives, IReadOnlyList<StripPoint> Points)
{
    /// <summary>Whether anybody took a probe of it between two days.</summary>
    public bool IsProbed(LocalDate first, LocalDate last) => Points.Any(p => p.Kind == ProbeKind.Probe && p.Day >= first && p.Day <= last);
}

/// <summary>A point of a goal's strip, oldest first among them.</summary>
public sealed record StripPoint(LocalDate Day, decimal Value, int? Opportunities, ProbeKind Kind);

public sealed record ProbesAsked(int Probes, Every Every, bool ByEach);

public sealed record ObjectiveShown(string Statement, LocalDate? TargetDay);

/// <param name="To">Null: open.</param>
public sealed record MemberShown(int PersonId, string Name, Relation Relation, IReadOnlyList<Discipline> Disciplines, LocalDate From, LocalDate? To);

public sealed record VisitShown(
    Guid Id, LocalDate On, LocalTime Start, int Minutes, VisitKind Kind, Discipline? Discipline, string Provider, Place Place, bool IsMakeUp,
    VisitState State, Reason? CalledOff)
{
    /// <summary>The names of the routines to be practised.</summary>
    public IReadOnlyList<string> Routines { get; init; } = [];
}
