namespace TeamCircle.Core.Routines;

/// <summary>What holds for the content of a card before it may become a version.</summary>
/// <remarks>Fields are named as the form names them: <c>Steps[2].Words</c>.</remarks>
public static class CardRules
{
    public const int LongestText = 400, LongestLine = 200, MostSteps = 20, MostPrompts = 10, MostCautions = 12, LongestWait = 300, LongestRun = 3600;

    /// <summary>All problems at once; empty where the card may be saved. A card without steps may be: it is not finished yet.</summary>
    /// <param name="goals">The learner's goals.</param>
    public static IEnumerable<Problem> Check(RoutineContent card, IReadOnlySet<int> goals) =>
        [.. Texts(card), .. Devices(card), .. Cautions(card), .. Prompts(card), .. Waits(card), .. Steps(card, goals)];

    private static IEnumerable<Problem> Texts(RoutineContent card)
    {
        (string Field, string? Text)[] texts =
        [
            (nameof(card.Cue), card.Cue), (nameof(card.Say), card.Say), (nameof(card.Position), card.Position), (nameof(card.Support), card.Support),
            (nameof(card.Light), card.Light), (nameof(card.Background), card.Background), (nameof(card.Side), card.Side), (nameof(card.Height), card.Height),
            (nameof(card.Distance), card.Distance), (nameof(card.Materials), card.Materials), (nameof(card.Finish), card.Finish), (nameof(card.Texture), card.Texture),
            (nameof(card.Allergies), card.Allergies), (nameof(card.WhoFeeds), card.WhoFeeds), (nameof(card.FoodOrPowerNear), card.FoodOrPowerNear),
            (nameof(card.SeizuresAsked), card.SeizuresAsked), ("Device.Name", card.Device?.Name), ("Device.Site", card.Device?.Site), ("Device.Side", card.Device?.Side),
            ("Device.Mount", card.Device?.Mount), ("Device.Measures", card.Device?.Measures), ("Appliance.Name", card.Appliance?.Name),
            .. card.Cautions.Select((c, i) => ($"Cautions[{i}].Text", (string?)c.Text)),
        ];
        return texts.Where(t => t.Text?.Length > LongestText).Select(t => new Problem(t.Field, $"Keep it under {LongestText} letters: the card is one sheet."))
            .Concat(card.Cue?.Length > RoutineRules.LongestCue ? [new Problem(nameof(card.Cue), $"Say in under {RoutineRules.LongestCue} letters what the learner is shown.")] : []);
    }

    private static IEnumerable<Problem> Devices(RoutineContent card)
    {
        if (card.Device is { } device && string.IsNullOrWhiteSpace(device.Name))
            yield return new("Device.Name", "Name the switch or device.");
        if (card.Appliance is not { } appliance)
            yield break;
        if (string.IsNullOrWhiteSpace(appliance.Name))
            yield return new("Appliance.Name", "Name what the switch sets going.");
        if (appliance is { Kind: ApplianceKind.Timed, AutoOffSeconds: not (>= 1 and <= LongestRun) })
            yield return new("Appliance.AutoOffSeconds", "Say after how many seconds it stops by itself, at most an hour.");
    }

    private static IEnumerable<Problem> Cautions(RoutineContent card)
    {
        if (card.Flashing && string.IsNullOrWhiteSpace(card.SeizuresAsked))
            yield return new(nameof(card.SeizuresAsked), "Something here flashes or flickers. Ask the family and the health plan about seizures before this is saved, and write what was answered, by whom and when.");
        if (card.Cautions.Count > MostCautions)
            yield return new(nameof(card.Cautions), $"Keep to {MostCautions} cautions: what nobody reads protects nobody.");
        foreach (var (caution, i) in card.Cautions.Select((c, i) => (c, i)).Where(c => string.IsNullOrWhiteSpace(c.c.Text)))
            yield return new($"Cautions[{i}].Text", "Say what to take care of, or remove this caution.");
    }

    private static IEnumerable<Problem> Prompts(RoutineContent card)
    {
        if (card.Prompts.Count > MostPrompts)
            yield return new(nameof(card.Prompts), $"Keep to {MostPrompts} prompts.");
        if (card.Prompts.Count > 0 && card.Procedure is null)
            yield return new(nameof(card.Procedure), "Name the procedure by which the prompts are given.");
        if (card.Prompts.Count == 0 && card.Procedure is not null)
            yield return new(nameof(card.Prompts), "Write the prompts in their order, or choose that there are none.");
        for (var i = 0; i < card.Prompts.Count; i++)
        {
            var prompt = card.Prompts[i];
            if (string.IsNullOrWhiteSpace(prompt.Words))
                yield return new($"Prompts[{i}].Words", "Write the prompt in the team's own words, or remove it.");
            else if (prompt.Words.Length > LongestLine)
                yield return new($"Prompts[{i}].Words", $"Keep it under {LongestLine} letters.");
            if (prompt.Physical is { } help && (string.IsNullOrWhiteSpace(help.Part) || help.Part.Length > LongestLine))
                yield return new($"Prompts[{i}].Physical.Part", $"Name the part of the body that is helped, in under {LongestLine} letters.");
            if (prompt.Physical is { } touch && (string.IsNullOrWhiteSpace(touch.Stops) || touch.Stops.Length > LongestLine))
                yield return new($"Prompts[{i}].Physical.Stops", $"Say in under {LongestLine} letters when the adult lets go, such as: stops when she pulls away.");
        }
    }

    private static IEnumerable<Problem> Waits(RoutineContent card)
    {
        (string Field, int? Seconds)[] waits =
        [
            (nameof(card.WaitSeconds), card.WaitSeconds),
            .. card.Prompts.Select((p, i) => ($"Prompts[{i}].WaitSeconds", p.WaitSeconds)),
            .. card.Steps.Select((s, i) => ($"Steps[{i}].WaitSeconds", s.WaitSeconds)),
        ];
        foreach (var (field, _) in waits.Where(w => w.Seconds is < 0 or > LongestWait))
            yield return new(field, $"A wait is 0 to {LongestWait} seconds.");
        var asked = card.Steps.Where(s => s.Kind == StepKind.Response).ToList();
        if (asked.Any(s => card.Prompts.Any(p => card.WaitBefore(s, p) is null)))
            yield return new(nameof(card.WaitSeconds), "Say how many silent seconds come before each prompt. There is no usual wait: the team enters it.");
    }

    private static IEnumerable<Problem> Steps(RoutineContent card, IReadOnlySet<int> goals)
    {
        if (card.Steps.Count > MostSteps)
            yield return new(nameof(card.Steps), $"Keep to {MostSteps} steps: the card is one sheet.");
        for (var i = 0; i < card.Steps.Count; i++)
        {
            if (string.IsNullOrWhiteSpace(card.Steps[i].Words))
                yield return new($"Steps[{i}].Words", "Say what is done in this step, or remove it.");
            else if (card.Steps[i].Words.Length > LongestLine)
                yield return new($"Steps[{i}].Words", $"Keep it under {LongestLine} letters.");
            if (!card.Steps[i].Goals.All(goals.Contains))
                yield return new($"Steps[{i}].Goals", "Choose from the learner's goals.");
        }
    }
}
