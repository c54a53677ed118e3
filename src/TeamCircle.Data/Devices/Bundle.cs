using System.Text.Json;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Devices;

/// <summary>What a device keeps so that a person can work without a network today and tomorrow; learners by their short codes.</summary>
/// <param name="Expires">From then on the device deletes it.</param>
/// <param name="Zone">The agency's, by its name in the tz database.</param>
public sealed record Bundle(
    Instant AsOf, Instant Expires, LocalDate Today, LocalDate Tomorrow, string Zone, IReadOnlyList<BundleLearner> Learners,
    IReadOnlyList<BundleVisit> Visits, IReadOnlyList<BundleService> Services, IReadOnlyList<BundleRoutine> Routines, IReadOnlyList<BundleGoal> Goals);

/// <param name="HealthPlan">Where the health plan lies and what to do, then the learner's own cautions; line by line.</param>
/// <param name="Teach">How we teach, part by part, as far as it is written.</param>
/// <param name="ReadFirst">Whether the person stands in and has not said today that they read first how the learner is taught.</param>
public sealed record BundleLearner(int Id, string Code, IReadOnlyList<string> HealthPlan, IReadOnlyList<BundleSignal> Signals, IReadOnlyList<BundleSignal> Teach, bool ReadFirst);

/// <param name="Means">What the learner means by it: yes, more, no, stop, tired, pain; or the part of "How we teach".</param>
public sealed record BundleSignal(string Means, string Words);

/// <param name="Start">Such as 09:05.</param>
/// <param name="ServiceId">Null for a visit of another kind.</param>
/// <param name="Version">To be sent back with the log: who logs a visit that was changed meanwhile is told.</param>
public sealed record BundleVisit(
    Guid Id, int Learner, LocalDate Day, string Start, int Minutes, string Place, string Service, int? ServiceId, int Version, IReadOnlyList<int> Routines);

/// <summary>A service for which a visit can be logged that nobody had scheduled.</summary>
/// <param name="IsMine">Whether the person is assigned to it today: these come first.</param>
public sealed record BundleService(int Id, int Learner, string Words, bool IsMine);

/// <param name="Content">JSON of the <see cref="RoutineContent"/>.</param>
/// <param name="CautionsSeen">The version's id where this person has seen the same cautions in full before; null: they are shown in full.</param>
public sealed record BundleRoutine(
    int Id, int Learner, string Name, BundleVersion Version, JsonElement Content, BundleReview Review, int? CautionsSeen, IReadOnlyList<BundlePicture> Pictures)
{
    /// <summary>What it uses that is out of order, and what to do meanwhile: a sentence or two each.</summary>
    public IReadOnlyList<string> Out { get; init; } = [];
}

public sealed record BundleVersion(int Id, int Number);

/// <param name="By">Who gave the review that counts, also one that has run out; null where there is none, with the two that follow.</param>
public sealed record BundleReview(ReviewState State, string? By, LocalDate? On, LocalDate? Until);

public sealed record BundlePicture(int Id, string Kind, string Words);

public sealed record BundleGoal(int Id, int Learner, string Code, string Words, Measure Measure);
