using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Practice;

/// <summary>One practice with what it comes to.</summary>
/// <param name="Started">In the agency's time.</param>
/// <param name="SkewMs">How far the device's clock was ahead; null where nobody knows.</param>
/// <param name="MayAdd">Whether the reader may add its figures to the goals.</param>
public sealed record PracticePage(
    Guid Id, int LearnerId, string Learner, int RoutineId, string Routine, int Version, int ProviderId, string Provider, LocalDateTime Started, LocalDateTime Ended,
    int? SkewMs, string? Device, Guid? VisitId, Guid? Observes, bool MayAdd, PracticeRecord Record, RoutineContent Card, PracticeFigures Figures, IReadOnlyList<PracticeGoal> Goals);

/// <param name="Offer">What can be added; null where the measure is counted another way, or nothing was presented.</param>
/// <param name="WhyNoProbe">Why it is offered as teaching data only; empty where it may be a probe.</param>
/// <param name="Added">As what its figures were added already; null where they were not.</param>
public sealed record PracticeGoal(
    GoalFigures Figures, string Area, string Statement, Measure Measure, ProbeOffer? Offer, IReadOnlyList<string> WhyNoProbe, ProbeKind? Added);

/// <summary>One line of a list of practices.</summary>
/// <param name="WithoutHelp">Over all its trials that are opportunities.</param>
public sealed record ListedPractice(Guid Id, LocalDateTime Started, int RoutineId, string Routine, int Version, string Provider, PracticeEntry Entry, CountOf WithoutHelp);
