namespace TeamCircle.Core.Practice;

/// <summary>How a trial ended.</summary>
public enum TrialEnd
{
    /// <summary>Nobody knows: it was never presented, or something came in the middle and no response is on record.</summary>
    Unknown,
    Response,
    NoResponse,
    Refused,
}

/// <summary>One prompt that was given.</summary>
/// <param name="Key">Null where it was none of the order.</param>
/// <param name="At">Milliseconds since the practice began.</param>
/// <param name="Waited">Milliseconds of silent wait before it, without the time in which the learner was trying.</param>
/// <param name="Agreed">Milliseconds of wait that were agreed; null where none was.</param>
/// <param name="WhileTrying">The learner had begun, and nobody had marked that the try was over.</param>
public sealed record PromptGiven(string? Key, int At, int Waited, int? Agreed, bool WhileTrying)
{
    /// <summary>Earlier than the agreed wait, less what an adult's hand may take.</summary>
    public bool IsEarly => Agreed is { } agreed && Waited < agreed - TrialTimeline.Allowance;

    /// <summary>Later than the agreed wait, by more than the same: it keeps the wait.</summary>
    public bool IsLate => Agreed is { } agreed && Waited > agreed + TrialTimeline.Allowance;
}

/// <summary>What one trial's events say (docs/rules.md, part 11). Times are whole milliseconds from the end of the cue.</summary>
/// <remarks>
/// The wait runs from the end of the cue, and again from each prompt; it stands still from <i>begun</i> until a response or <i>stopped trying</i>.
/// Example: begun at 10 s, response at 22 s, agreed wait 12 s: no prompt was due, time to respond 10 s, completed at 22 s.
/// A remembered or interrupted trial, one at 0 seconds and one whose cue's end nobody marked have no times, and nothing can be said of
/// their waits.
/// </remarks>
public sealed record TrialTimeline
{
    /// <summary>A prompt may come this many milliseconds before the agreed wait is over (our number).</summary>
    public const int Allowance = 2_000;

    /// <summary>How long before a late tap the thing happened, in milliseconds.</summary>
    public const int LateTap = 5_000;

    public required Trial Trial { get; init; }
    public required TrialEnd End { get; init; }

    /// <summary>Prompts before the response; null where there was none, or it ended in a refusal.</summary>
    public int? PromptsNeeded { get; init; }

    /// <summary>The response hoped for, or the first one where that never came; null where there was none, or nobody said which.</summary>
    public ResponseKind? Response { get; init; }

    /// <summary>To the <i>begun</i> that ended in the first response before any prompt, or to that response; null where there is no such
    /// response or no time.</summary>
    public int? TimeToRespond { get; init; }

    /// <summary>To that response itself; beside <see cref="TimeToRespond"/>.</summary>
    public int? Completed { get; init; }

    /// <summary>Where no response came before any prompt: the first prompt, or the end of the trial; null where there is no time.</summary>
    public int? CensoredAt { get; init; }

    /// <summary>Each <i>begun</i> that ended in no response before any prompt: when it came.</summary>
    public IReadOnlyList<int> Attempts { get; init; } = [];

    /// <summary>The silent wait that ended in a response, before or after prompts; null where none did or no time is known.</summary>
    public int? WaitThatEndedInResponse { get; init; }

    /// <summary>In order. Empty where no time is known.</summary>
    public IReadOnlyList<PromptGiven> Prompts { get; init; } = [];

    /// <summary>No prompt came early; null where no wait was agreed, the first prompt came at once, or no time is known.</summary>
    public bool? WaitKept { get; init; }

    /// <summary>Presented, counted, not at 0 seconds, not refused.</summary>
    public bool IsOpportunity => Trial is { Counts: true, AtOnce: false } && End is TrialEnd.Response or TrialEnd.NoResponse;

    /// <summary>The response hoped for came in an opportunity before any prompt.</summary>
    public bool WithoutHelp => IsOpportunity && PromptsNeeded == 0 && Response == ResponseKind.HopedFor;

    /// <param name="trial">Its events in order (<see cref="PracticeRules"/>).</param>
    /// <param name="prompts">The order of prompts that its step had.</param>
    public static TrialTimeline Of(Trial trial, IReadOnlyList<AgreedPrompt> prompts) => TrialReading.Read(trial, prompts);
}
