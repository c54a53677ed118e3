using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Practice;

/// <summary>One practice with what it comes to.</summary>
/// <param name="Started">In the agency's time.</param>
/// <param name="SkewMs">How far the device's clock was ahead; null where nobody knows.</param>
/// <param name="Observes">The practice that it scored as a second observer; null for a first one, and where that one has not arrived.</param>
/// <param name="MayAdd">Whether the reader may add its figures to the goals: never those of a second observer.</param>
/// <param name="MayScore">Whether the reader may score it once more, from a recording.</param>
public sealed record PracticePage(
    Guid Id, int LearnerId, string Learner, int RoutineId, string Routine, int Version, int ProviderId, string Provider, LocalDateTime Started, LocalDateTime Ended,
    int? SkewMs, string? Device, Guid? VisitId, Guid? Observes, bool MayAdd, bool MayScore, PracticeRecord Record, RoutineContent Card, PracticeFigures Figures, IReadOnlyList<PracticeGoal> Goals)
{
    /// <summary>What other observers scored of it; of a second observer's, the practice itself.</summary>
    public IReadOnlyList<OtherScore> Others { get; init; } = [];

    /// <summary>The holds that lay on it, where it was entered knowing so; null otherwise.</summary>
    public UnderHolds? Under { get; init; }
}

/// <summary>Another observer's score of the same trials.</summary>
/// <param name="Observer">Who scored them.</param>
/// <param name="From">The recording from which; null where they were there.</param>
/// <param name="Trials">Those of the first observer beside those of the second.</param>
public sealed record OtherScore(Guid Practice, string Observer, ConsentedRecording? From, IReadOnlyList<TrialScoredTwice> Trials);

/// <param name="Reasons">Of the holds.</param>
/// <param name="By">Who entered it.</param>
/// <param name="Word">What they said.</param>
public sealed record UnderHolds(IReadOnlyList<string> Reasons, string By, string Word);

/// <param name="Offer">What can be added; null where the measure is counted another way, or nothing was presented.</param>
/// <param name="WhyNoProbe">Why it is offered as teaching data only; empty where it may be a probe.</param>
/// <param name="Added">As what its figures were added already; null where they were not.</param>
public sealed record PracticeGoal(
    GoalFigures Figures, string Area, string Statement, Measure Measure, ProbeOffer? Offer, IReadOnlyList<string> WhyNoProbe, ProbeKind? Added);

/// <summary>One line of a list of practices.</summary>
/// <param name="IsSecond">Whether a second observer scored it; then it counts nothing.</param>
/// <param name="WithoutHelp">Over all its trials that are opportunities.</param>
public sealed record ListedPractice(Guid Id, LocalDateTime Started, int RoutineId, string Routine, int Version, string Provider, PracticeEntry Entry, bool IsSecond, CountOf WithoutHelp)
{
    /// <summary>Whether whoever practised stood in for somebody on that day.</summary>
    public bool IsNewPerson { get; init; }
}
