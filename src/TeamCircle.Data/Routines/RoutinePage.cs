using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Routines;

/// <summary>A routine with one version of its card, and all that stands beside it.</summary>
/// <param name="Version">The row's edit token.</param>
/// <param name="Ended">Null while it goes on.</param>
/// <param name="Versions">Newest first; empty where nobody has written the card yet.</param>
/// <param name="Goals">The learner's goals that a step may serve or serves, by id.</param>
/// <param name="MayReviewAs">The reader's own disciplines that need a licence; empty where they may not review.</param>
public sealed record RoutinePage(
    int Id, int LearnerId, string Learner, string Name, int Version, RoutineEnd? Ended, CardShown Card, IReadOnlyList<VersionShown> Versions,
    IReadOnlyDictionary<int, GoalNamed> Goals, IReadOnlyList<PictureShown> Pictures, bool MayWrite, IReadOnlyList<Discipline> MayReviewAs)
{
    /// <summary>The holds that stop it, in whole or in a step, newest first.</summary>
    public IReadOnlyList<HoldShown> Holds { get; init; } = [];

    /// <summary>Those that lay on it or on one of its steps and have ended, newest first.</summary>
    public IReadOnlyList<HoldShown> EndedHolds { get; init; } = [];

    /// <summary>What it uses that is out of order today.</summary>
    public IReadOnlyList<ThingOut> Out { get; init; } = [];

    /// <summary>Whether the reader has seen the cautions in full, since they last changed; true also where there are none.</summary>
    public bool CautionsSeen { get; init; }

    /// <summary>Whether the reader may set a hold.</summary>
    public bool MaySetHold { get; init; }

    public bool IsNewest => Versions.Count == 0 || Card.Number == Versions[0].Number;
}

public sealed record RoutineEnd(LocalDate On, string By, string Reason);

/// <summary>The card itself.</summary>
/// <param name="VersionId">0, with <paramref name="Number"/>, where nobody has written it yet: only its object cue and place are known.</param>
public sealed record CardShown(int VersionId, int Number, RoutineContent Content, CardReview Review);

/// <param name="By">Who gave the review that <paramref name="Standing"/> speaks of; null without one.</param>
/// <param name="MayTakeBack">Whether the reader gave it.</param>
public sealed record CardReview(ReviewStanding Standing, string? By, Discipline? As, string? Note, bool MayTakeBack);

public sealed record VersionShown(int Id, int Number, string By, LocalDate On, RoutineContent Content);

/// <param name="IsCurrent">Whether the goal runs today or later: only such a one is offered anew.</param>
public sealed record GoalNamed(int Id, string Code, string Area, string Statement, bool IsCurrent);

public sealed record PictureShown(int Id, PictureKind Kind, int Width, int Height, string Words);
