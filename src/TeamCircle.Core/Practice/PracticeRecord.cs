using System.Text.Json.Serialization;
using NodaTime;

namespace TeamCircle.Core.Practice;

/// <summary>One practice of one version of a routine, as it was recorded while it happened or filled in after it.</summary>
/// <remarks>
/// <para>Moments inside it (<c>at</c>, <c>unaskedClosures</c>, <c>stop</c>) are whole milliseconds since the practice began, by a clock
/// that never goes back. <see cref="StartedAt"/> and <see cref="EndedAt"/> are what the device's own clock showed: a claim, kept as it was.</para>
/// <para>What nobody said is left out or null, never an empty text that stands for something.</para>
/// </remarks>
public sealed record PracticeRecord
{
    /// <summary>Made where it was recorded; a version 7 UUID.</summary>
    public required Guid Id { get; init; }
    public required int Routine { get; init; }

    /// <summary>The id of the version that was practised, not its number.</summary>
    public required int Version { get; init; }

    /// <summary>The visit during which it was practised; null outside one.</summary>
    public Guid? Visit { get; init; }
    public required PracticeEntry Entry { get; init; }
    public required Instant StartedAt { get; init; }

    /// <summary>Not before <see cref="StartedAt"/>.</summary>
    public required Instant EndedAt { get; init; }

    /// <summary>In the order in which they were presented.</summary>
    public IReadOnlyList<Trial> Trials { get; init; } = [];

    /// <summary>What became of each step; one that is missing here was due and nobody said that it was done as written.</summary>
    public IReadOnlyList<StepDone> Steps { get; init; } = [];

    /// <summary>Closures of the learner's switch that nobody had asked for: when each came.</summary>
    public IReadOnlyList<int> UnaskedClosures { get; init; } = [];
    public Conditions Conditions { get; init; } = new();

    /// <summary>Each time that somebody pressed Stop.</summary>
    public IReadOnlyList<Stop> Stops { get; init; } = [];

    /// <summary>What filled the rest of the hour.</summary>
    public IReadOnlyList<Filled> Filled { get; init; } = [];

    /// <summary>The practice that this one scored as a second observer; null where it is the first, or only its code is known.</summary>
    public Guid? Observes { get; init; }

    /// <summary>Its <see cref="ObserverCode"/>, as it was read off the first person's sheet; null where nothing was, or <see cref="Observes"/> names it.</summary>
    public string? ObservesCode { get; init; }

    /// <summary>For a second observer: the recording from which it was scored; null where they were there.</summary>
    public ConsentedRecording? From { get; init; }

    /// <summary>Whether it scores what another practice is the record of: it is never counted as a practice of its own.</summary>
    [JsonIgnore]
    public bool IsSecond => Observes is not null || ObservesCode is not null;
}

/// <summary>A recording that stays where it is: only the consent to it is on record.</summary>
/// <param name="ConsentBy">Who gave the consent.</param>
/// <param name="ConsentOn">The day on which they gave it.</param>
public sealed record ConsentedRecording(string ConsentBy, LocalDate ConsentOn);

/// <summary>Recorded while it happened, or filled in after it from memory.</summary>
public enum PracticeEntry
{
    Live,
    Remembered,
}

/// <summary>One chance to respond in one step.</summary>
public sealed record Trial
{
    public required Guid Id { get; init; }

    /// <summary>The step's key in the version that was practised.</summary>
    public required string Step { get; init; }

    /// <summary>The first prompt comes at 0 seconds: it teaches and is no opportunity.</summary>
    public bool AtOnce { get; init; }

    /// <summary>False: "does not count".</summary>
    public bool Counts { get; init; } = true;

    /// <summary>A reload or an empty battery came in the middle, so no time in it can be trusted.</summary>
    public bool Interrupted { get; init; }

    /// <summary>In the order of the taps; what was undone is not among them.</summary>
    public IReadOnlyList<TrialEvent> Events { get; init; } = [];

    /// <summary>For what was filled in after: in place of events, or beside a refusal.</summary>
    public RememberedTrial? Remembered { get; init; }
}

/// <param name="PromptsNeeded">How many prompts came before the response hoped for; null: no response. It is written also where it is null, since it says so.</param>
/// <param name="AboutSeconds">About how long it took to respond; shown, and never part of a curve of time.</param>
public sealed record RememberedTrial([property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] int? PromptsNeeded, int? AboutSeconds = null);

public sealed record TrialEvent
{
    /// <summary>When it was tapped; not before the event before it.</summary>
    public required int At { get; init; }
    public required TrialEventKind Kind { get; init; }

    /// <summary>For a prompt: its key in the version that was practised; null where it was none of the order.</summary>
    public string? Prompt { get; init; }

    /// <summary>For a response; null where nobody said.</summary>
    public ResponseKind? Response { get; init; }

    /// <summary>For a response: how, in the team's own words.</summary>
    public string? How { get; init; }
    public TappedBy By { get; init; }

    /// <summary>"About five seconds ago": it happened <see cref="TrialTimeline.LateTap"/> before the tap, as far as the events before it leave room.</summary>
    public bool Late { get; init; }
}

public enum TrialEventKind
{
    CueEnded,

    /// <summary>The learner starts to move: the wait stands still.</summary>
    Begun,

    /// <summary>The wait goes on from where it stood.</summary>
    StoppedTrying,
    Response,
    Prompt,

    /// <summary>Said no, turned away, had enough: communication, and the end of the step.</summary>
    Refusal,
    End,
}

public enum ResponseKind
{
    HopedFor,
    SomethingElse,
    NotSure,
}

/// <summary>What recorded an event: never mixed, since only one of them is the learner's.</summary>
public enum TappedBy
{
    Screen,
    Key,
    LearnerSwitch,
    Pedal,
}

/// <param name="Step">The step's key.</param>
/// <param name="Why">Needed unless it was done as written.</param>
public sealed record StepDone(string Step, HowDone Done, string? Why = null);

public enum HowDone
{
    AsWritten,
    Otherwise,
    Skipped,
    Stopped,
}

/// <summary>A practice that was stopped for the learner's health or safety.</summary>
/// <param name="At">When Stop was pressed.</param>
/// <param name="ResumedAt">When the practice went on; null where it did not.</param>
/// <param name="What">What it was.</param>
/// <param name="Done">What was done.</param>
/// <param name="Told">Who was told.</param>
public sealed record Stop(int At, int? ResumedAt = null, string? What = null, string? Done = null, string? Told = null);

public sealed record Filled(FilledKind Kind, int Minutes);

/// <summary>What fills a visit beside practice.</summary>
public enum FilledKind
{
    WarmUp,
    Transfers,
    Positioning,
    Feeding,
    Rest,
}
