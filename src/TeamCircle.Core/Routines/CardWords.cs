namespace TeamCircle.Core.Routines;

/// <summary>What stands on a card, in words: the same on the page, on paper and in a difference.</summary>
public static class CardWords
{
    public static string Of(StepKind kind) => kind switch
    {
        StepKind.Shown => "shown by the adult",
        StepKind.Response => "response asked",
        _ => "waiting",
    };

    public static string Of(PromptProcedure procedure) => procedure switch
    {
        PromptProcedure.ConstantDelay => "constant time delay",
        PromptProcedure.ProgressiveDelay => "progressive time delay",
        PromptProcedure.Simultaneous => "simultaneous prompting",
        _ => Words.Of(procedure),
    };

    /// <summary>12 seconds; 1 second.</summary>
    public static string Seconds(int seconds) => seconds == 1 ? "1 second" : $"{seconds} seconds";

    /// <summary>Hand under hand, left elbow; stops when she pulls away.</summary>
    public static string Of(PhysicalHelp help) => $"hand {Words.Of(help.Hand)} hand, {(help.Side == BodySide.Both ? $"{help.Part} on both sides" : $"{Words.Of(help.Side)} {help.Part}")}; {help.Stops}";

    /// <summary>Small pump: timed, stops by itself after 5 seconds.</summary>
    public static string Of(Appliance appliance) => appliance is { Kind: ApplianceKind.Timed, AutoOffSeconds: { } seconds }
        ? $"{appliance.Name}: timed, stops by itself after {Seconds(seconds)}"
        : $"{appliance.Name}: latched, runs until the switch is pressed again";

    /// <summary>What is said of the device, in the order of the card; parts of which nothing is said are left out.</summary>
    public static string Of(CardDevice device) => Listed(Which(device), device.Mount, device.Measures);

    /// <summary>Round switch, elbow, right.</summary>
    public static string Which(CardDevice device) => string.Join(", ", new[] { device.Name, device.Site, device.Side }.OfType<string>());

    /// <param name="goal">The code of a goal.</param>
    public static string Of(RoutineStep step, Func<int, string> goal) => Listed(
        $"{step.Words} ({Of(step.Kind)})", step.Goals.Count > 0 ? $"for {string.Join(", ", step.Goals.Select(goal))}" : null,
        step.WaitSeconds is { } wait ? $"wait {Seconds(wait)}" : null);

    public static string Of(Prompt prompt) => Listed(
        prompt.Words, prompt.Physical is { } help ? Of(help) : null, prompt.WaitSeconds is { } wait ? $"wait {Seconds(wait)}" : null);

    private static string Listed(params IEnumerable<string?> parts) => string.Join("; ", parts.Where(p => !string.IsNullOrWhiteSpace(p)).Select(p => p!.TrimEnd('.')));
}
