using NodaTime;
using TeamCircle.Core.Learners;

namespace TeamCircle.Core.Practice;

/// <summary>One trial as it is read over many practices: its figures, and the practice that it belongs to.</summary>
/// <param name="Step">The step's key in the routine's versions.</param>
/// <param name="TimeToRespond">Milliseconds, as is <paramref name="CensoredAt"/>; at most one of the two is known (<see cref="TrialTimeline"/>).</param>
public sealed record PractisedTrial(
    PractisedOnce In, string Step, TrialEnd End, bool Counts, bool AtOnce, bool Remembered, int? PromptsNeeded, ResponseKind? Response,
    int? TimeToRespond, int? CensoredAt, bool? WaitKept)
{
    /// <summary>Presented, counted, not at 0 seconds, not refused.</summary>
    public bool IsOpportunity => Counts && !AtOnce && End is TrialEnd.Response or TrialEnd.NoResponse;

    /// <summary>The response hoped for came in an opportunity before any prompt.</summary>
    public bool WithoutHelp => IsOpportunity && PromptsNeeded == 0 && Response == ResponseKind.HopedFor;

    /// <summary>As the wait curve sees it; null where it is no opportunity or has no time.</summary>
    public TimedTrial? Timed => (IsOpportunity, TimeToRespond, CensoredAt) switch
    {
        (true, { } answered, _) => new(answered / 1000m, true),
        (true, null, { } waited) => new(waited / 1000m, false),
        _ => null,
    };

    /// <summary>Why it is in no curve of time; null where it is.</summary>
    public LeftOut? LeftOut =>
        Timed is not null ? null
        : !Counts ? Practice.LeftOut.DoesNotCount
        : AtOnce ? Practice.LeftOut.AtOnce
        : End == TrialEnd.Refused ? Practice.LeftOut.Refused
        : Remembered ? Practice.LeftOut.Remembered
        : Practice.LeftOut.Interrupted;
}

/// <summary>Why a trial is in no curve of time.</summary>
public enum LeftOut
{
    DoesNotCount,
    AtOnce,
    Refused,
    Remembered,

    /// <summary>Or the end of its cue was never marked, so that no time is known.</summary>
    Interrupted,
}

/// <summary>One practice as it is read over many: who, when, which version, under which conditions. What nobody said is null.</summary>
/// <param name="Person">Who practised with the learner.</param>
/// <param name="Version">The version's number in its routine.</param>
/// <param name="Steps">Done as written, of all steps of that version.</param>
public sealed record PractisedOnce(Guid Id, LocalDate Day, int Person, int Routine, int Version, CountOf Steps)
{
    public string? Side { get; init; }
    public string? Position { get; init; }

    /// <summary>At the start.</summary>
    public StateOfLearner? State { get; init; }

    /// <summary>Where the version is done.</summary>
    public Place? Place { get; init; }
}
