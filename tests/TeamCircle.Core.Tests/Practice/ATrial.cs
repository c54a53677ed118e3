using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Tests.Practice;

/// <summary>Trials as a test writes them: seconds, and the least words.</summary>
internal static class ATrial
{
    /// <summary>Two prompts; 12 s before the first, 8 s before the second.</summary>
    public static readonly AgreedPrompt[] Order = [new("point", 12), new("underHand", 8)];

    public static Trial With(params IEnumerable<TrialEvent> events) => new() { Id = Guid.CreateVersion7(), Step = "press", Events = [.. events] };

    public static TrialTimeline Read(params IEnumerable<TrialEvent> events) => TrialTimeline.Of(With(events), Order);

    public static TrialEvent Cue(double at = 0) => Event(TrialEventKind.CueEnded, at);

    public static TrialEvent Begun(double at) => Event(TrialEventKind.Begun, at);

    public static TrialEvent Stopped(double at) => Event(TrialEventKind.StoppedTrying, at);

    public static TrialEvent Responds(double at, ResponseKind? kind = ResponseKind.HopedFor) => Event(TrialEventKind.Response, at) with { Response = kind };

    public static TrialEvent Prompt(double at, string? key = null) => Event(TrialEventKind.Prompt, at) with { Prompt = key };

    public static TrialEvent Refuses(double at) => Event(TrialEventKind.Refusal, at);

    public static TrialEvent Ends(double at) => Event(TrialEventKind.End, at);

    private static TrialEvent Event(TrialEventKind kind, double at) => new() { Kind = kind, At = (int)Math.Round(at * 1000) };
}
