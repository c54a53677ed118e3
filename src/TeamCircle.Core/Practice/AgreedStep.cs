using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Practice;

/// <summary>What the version that was practised says of one step.</summary>
/// <param name="Goals">The goals that the step serves.</param>
/// <param name="Prompts">The team's own order; empty where the step asks for nothing.</param>
public sealed record AgreedStep(string Key, IReadOnlyList<int> Goals, IReadOnlyList<AgreedPrompt> Prompts)
{
    public static IReadOnlyList<AgreedStep> Of(RoutineContent content) => [.. content.Steps.Select(step => new AgreedStep(
        step.Key, step.Goals, step.Kind == StepKind.Response ? [.. content.Prompts.Select(p => new AgreedPrompt(p.Key, content.WaitBefore(step, p)))] : []))];
}

/// <param name="WaitSeconds">The silent wait before this prompt; null where none was agreed.</param>
public sealed record AgreedPrompt(string Key, int? WaitSeconds);
