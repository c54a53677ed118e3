using System.Text.Json;
using TeamCircle.Core.Learners;

namespace TeamCircle.Core.Routines;

/// <summary>The whole card of a routine as the team wrote it: one value, kept as one document by each version and sent so to devices.</summary>
/// <remarks>
/// Texts are in the team's own words; null: nothing is said about it, never an empty text. Lists keep the team's order. Two contents are the same
/// where their JSON is: compare <see cref="Write"/>, not the records, whose lists compare by reference.
/// </remarks>
public sealed record RoutineContent
{
    /// <summary>The object that tells the learner what comes next.</summary>
    public string? Cue { get; init; }

    /// <summary>What the adult says, word for word.</summary>
    public string? Say { get; init; }

    public string? Position { get; init; }

    /// <summary>Standing support of trunk, elbow or the weight of an arm: access, never a prompt.</summary>
    public string? Support { get; init; }

    public string? Light { get; init; }

    public string? Background { get; init; }

    /// <summary>On which side of the learner things are presented.</summary>
    public string? Side { get; init; }

    public string? Height { get; init; }

    public string? Distance { get; init; }

    /// <summary>The learner's switch or device; null where none is used.</summary>
    public CardDevice? Device { get; init; }

    public string? Materials { get; init; }

    /// <summary>Null: wherever the learner is.</summary>
    public Place? Place { get; init; }

    /// <summary>How the learner is told that it is over.</summary>
    public string? Finish { get; init; }

    public IReadOnlyList<Caution> Cautions { get; init; } = [];

    /// <summary>What the switch sets going; null where nothing is.</summary>
    public Appliance? Appliance { get; init; }

    /// <summary>The texture of what is eaten or drunk.</summary>
    public string? Texture { get; init; }

    public string? Allergies { get; init; }

    public string? WhoFeeds { get; init; }

    /// <summary>Where food, water or power is near, and what is done about it.</summary>
    public string? FoodOrPowerNear { get; init; }

    /// <summary>Whether something flashes, flickers or turns in the light.</summary>
    public bool Flashing { get; init; }

    /// <summary>What was answered when the team asked about seizures, and by whom; needed where something flashes.</summary>
    public string? SeizuresAsked { get; init; }

    /// <summary>Null only where there are no prompts.</summary>
    public PromptProcedure? Procedure { get; init; }

    /// <summary>The silent seconds before each prompt, where neither the step nor the prompt names its own. It has no default.</summary>
    public int? WaitSeconds { get; init; }

    /// <summary>In the order in which they are given.</summary>
    public IReadOnlyList<Prompt> Prompts { get; init; } = [];

    /// <summary>In the order in which they are done.</summary>
    public IReadOnlyList<RoutineStep> Steps { get; init; } = [];

    /// <summary>The silent seconds before <paramref name="prompt"/> at <paramref name="step"/>: the step's own, else the prompt's, else the routine's.</summary>
    /// <returns>Zero with simultaneous prompting, where the prompt comes with the cue; null where nobody has entered a wait.</returns>
    public int? WaitBefore(RoutineStep step, Prompt prompt) =>
        Procedure == PromptProcedure.Simultaneous ? 0 : step.WaitSeconds ?? prompt.WaitSeconds ?? WaitSeconds;

    /// <summary>JSON with camelCase members; what is null is left out.</summary>
    public string Write() => JsonSerializer.Serialize(this, StrictJson.Options);

    /// <exception cref="JsonException">The text is no such JSON, or holds a member that the card does not know.</exception>
    public static RoutineContent Read(string json) =>
        JsonSerializer.Deserialize<RoutineContent>(json, StrictJson.Options) ?? throw new JsonException("The card is empty.");
}

/// <summary>A caution in the team's words.</summary>
/// <param name="Key">Made when it is first written and the same in all later versions.</param>
public sealed record Caution(string Key, CautionKind Kind, string Text);

public enum CautionKind
{
    Positioning,
    PhysicalAssistance,
    Health,
    Skin,
    Swallowing,
    Allergies,
    Seizures,
    FlashingLight,
    MovingParts,
    PowerAndWater,
    Other,
}

/// <summary>The learner's switch or device, and how it is mounted.</summary>
/// <param name="Site">With which part of the body it is worked.</param>
/// <param name="Measures">The mount's measures, so that the next adult finds the same place.</param>
public sealed record CardDevice(string Name, string? Site = null, string? Side = null, string? Mount = null, string? Measures = null);

/// <summary>What a switch sets going.</summary>
/// <param name="AutoOffSeconds">After how long a timed one stops by itself; null for a latched one, which runs until it is pressed again.</param>
public sealed record Appliance(string Name, ApplianceKind Kind, int? AutoOffSeconds = null);

public enum ApplianceKind
{
    Latch,
    Timed,
}

/// <summary>The named procedure by which prompts are given.</summary>
public enum PromptProcedure
{
    LeastToMost,
    MostToLeast,
    ConstantDelay,
    ProgressiveDelay,
    Simultaneous,
}

/// <summary>One prompt of the team's own order.</summary>
/// <param name="Key">Made when it is first written and the same in all later versions.</param>
/// <param name="Physical">Null where the adult does not touch the learner.</param>
/// <param name="WaitSeconds">The silent seconds before it, where they differ from the routine's.</param>
public sealed record Prompt(string Key, string Words, PhysicalHelp? Physical = null, int? WaitSeconds = null);

/// <summary>How a physical prompt touches the learner.</summary>
/// <param name="Hand">Whether the adult's hand is under or over the learner's.</param>
/// <param name="Part">Which part of the body.</param>
/// <param name="Stops">When the adult lets go, in words: that it stops when she pulls away.</param>
public sealed record PhysicalHelp(HandPlace Hand, string Part, BodySide Side, string Stops);

public enum HandPlace
{
    Under,
    Over,
}

public enum BodySide
{
    Left,
    Right,
    Both,
}

/// <summary>One step.</summary>
/// <param name="Key">Made when it is first written and the same in all later versions.</param>
/// <param name="Goals">The goals of the learner that it serves.</param>
/// <param name="WaitSeconds">The silent seconds before each prompt at this step, where they differ from the routine's.</param>
public sealed record RoutineStep(string Key, StepKind Kind, string Words, IReadOnlyList<int> Goals, int? WaitSeconds = null);

public enum StepKind
{
    /// <summary>The adult shows or does something.</summary>
    Shown,

    /// <summary>The learner is asked for something: only here are prompts given and trials counted.</summary>
    Response,

    /// <summary>Everybody waits, rests or watches.</summary>
    Waiting,
}
