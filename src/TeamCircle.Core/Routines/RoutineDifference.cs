namespace TeamCircle.Core.Routines;

/// <summary>One thing that differs between two versions of a card.</summary>
/// <param name="Part">What it is, in words: "Light", "Step 2".</param>
/// <param name="Before">Null where it was not there.</param>
/// <param name="After">Null where it is there no more.</param>
public sealed record CardChange(string Part, string? Before, string? After);

/// <summary>A change in how the adult waits and prompts.</summary>
/// <param name="Line">In words, on one line.</param>
/// <param name="IsOfPrompts">Whether the procedure, the prompts or their order changed; false for a wait alone.</param>
public sealed record PromptingChange(string Line, bool IsOfPrompts);

/// <summary>What differs between two versions of a card, in words. Steps, prompts and cautions are found again by their keys, whatever their place.</summary>
public static class RoutineDifference
{
    private const string Procedure = "Procedure", Wait = "Wait before each prompt";

    private static readonly (string Part, Func<RoutineContent, string?> Text)[] Texts =
    [
        ("Object cue", c => c.Cue), ("Words to say", c => c.Say), ("Position", c => c.Position), ("Support", c => c.Support),
        ("Light", c => c.Light), ("Background", c => c.Background), ("Side", c => c.Side), ("Height", c => c.Height), ("Distance", c => c.Distance),
        ("Switch or device", c => c.Device is { } device ? CardWords.Of(device) : null),
        ("What it sets going", c => c.Appliance is { } appliance ? CardWords.Of(appliance) : null),
        ("Materials", c => c.Materials), ("Place", c => c.Place is { } place ? Words.Of(place) : null), ("Finish signal", c => c.Finish),
        ("Texture", c => c.Texture), ("Allergies", c => c.Allergies), ("Who feeds", c => c.WhoFeeds), ("Food or power near", c => c.FoodOrPowerNear),
        ("Flashing", c => c.Flashing ? "something flashes or flickers" : null), ("Seizures", c => c.SeizuresAsked),
        (Procedure, c => c.Procedure is { } procedure ? CardWords.Of(procedure) : null),
        (Wait, c => c.WaitSeconds is { } wait ? CardWords.Seconds(wait) : null),
    ];

    /// <summary>Cautions first, as on the card; empty where the two are the same.</summary>
    /// <param name="goal">The code of a goal.</param>
    public static IReadOnlyList<CardChange> Between(RoutineContent before, RoutineContent after, Func<int, string> goal) =>
    [
        .. Lists("Caution", "cautions", Cautions(before), Cautions(after)),
        .. Texts.Select(t => new CardChange(t.Part, t.Text(before), t.Text(after))).Where(c => c.Before != c.After),
        .. Lists("Step", "steps", Steps(before, goal), Steps(after, goal)),
        .. Lists("Prompt", "prompts", Prompts(before), Prompts(after)),
    ];

    /// <summary>What differs in how long the adult waits and in the prompts, where a step serves a goal: one line each, in words.</summary>
    /// <remarks>Words of a prompt count as a change too: the learner hears or feels another prompt.</remarks>
    public static IEnumerable<PromptingChange> OfPrompting(RoutineContent before, RoutineContent after, int goal)
    {
        var texts = Texts.Where(t => t.Part is Procedure or Wait).Select(t => new CardChange(t.Part, t.Text(before), t.Text(after))).Where(c => c.Before != c.After).ToList();
        var steps = after.Steps.Where(s => s.Goals.Contains(goal)).Select(now => (Now: now, Was: before.Steps.FirstOrDefault(s => s.Key == now.Key)))
            .Where(pair => pair.Was is not null && pair.Was.WaitSeconds != pair.Now.WaitSeconds)
            .Select(pair => new CardChange($"Wait at \"{pair.Now.Words}\"", Seconds(pair.Was!.WaitSeconds), Seconds(pair.Now.WaitSeconds)));
        return
        [
            .. texts.Where(c => c.Part == Wait).Concat(steps).Select(c => Line(c, false)),
            .. texts.Where(c => c.Part == Procedure).Concat(Lists("Prompt", "prompts", Prompts(before), Prompts(after))).Select(c => Line(c, true)),
        ];

        static string? Seconds(int? wait) => wait is { } seconds ? CardWords.Seconds(seconds) : null;
        static PromptingChange Line(CardChange change, bool isOfPrompts) => new($"{change.Part}: {change.After ?? "none"} instead of {change.Before ?? "none"}", isOfPrompts);
    }

    private sealed record Item(string Key, string Name, string Text);

    private static List<Item> Cautions(RoutineContent card) => [.. card.Cautions.Select(c => new Item(c.Key, c.Text, $"{c.Text} ({Words.Of(c.Kind)})"))];

    private static List<Item> Steps(RoutineContent card, Func<int, string> goal) => [.. card.Steps.Select(s => new Item(s.Key, s.Words, CardWords.Of(s, goal)))];

    private static List<Item> Prompts(RoutineContent card) => [.. card.Prompts.Select(p => new Item(p.Key, p.Words, CardWords.Of(p)))];

    private static IEnumerable<CardChange> Lists(string one, string many, List<Item> before, List<Item> after)
    {
        foreach (var (gone, i) in before.Select((b, i) => (b, i)).Where(b => !after.Exists(a => a.Key == b.b.Key)))
            yield return new($"{one} {i + 1}", gone.Text, null);
        for (var i = 0; i < after.Count; i++)
        {
            var was = before.Find(b => b.Key == after[i].Key);
            if (was?.Text != after[i].Text)
                yield return new($"{one} {i + 1}", was?.Text, after[i].Text);
        }
        var (old, now) = (before.Where(b => after.Exists(a => a.Key == b.Key)).ToList(), after.Where(a => before.Exists(b => b.Key == a.Key)).ToList());
        if (!old.Select(o => o.Key).SequenceEqual(now.Select(n => n.Key)))
            yield return new($"Order of the {many}", Order(old), Order(now));
    }

    private static string Order(List<Item> items) => string.Join("; ", items.Select((item, i) => $"{i + 1}. {item.Name}"));
}
