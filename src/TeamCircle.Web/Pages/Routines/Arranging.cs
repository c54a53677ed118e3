using System.Globalization;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>What the buttons inside the form of a card do: they add, move, remove and put back, and save nothing.</summary>
internal static class Arranging
{
    /// <param name="act">"Steps.add", or "Steps.up.2" (down, remove, back); what is none of these changes nothing.</param>
    public static void Apply(CardInput card, string? act)
    {
        switch ((act ?? "").Split('.'))
        {
            case [nameof(CardInput.Cautions), .. var rest]:
                Apply(card.Cautions, rest);
                break;
            case [nameof(CardInput.Prompts), .. var rest]:
                Apply(card.Prompts, rest);
                break;
            case [nameof(CardInput.Steps), .. var rest]:
                Apply(card.Steps, rest);
                break;
        }
    }

    /// <summary>All that was typed into an item that is removed, as a form sends it.</summary>
    public static IEnumerable<(string Name, string Value)> Kept(CardInput.Item item) =>
    [
        (nameof(item.Gone), "true"),
        (nameof(item.Key), item.Key ?? ""),
        .. item switch
        {
            CardInput.CautionInput caution => [(nameof(caution.Kind), $"{caution.Kind}"), (nameof(caution.Text), caution.Text ?? "")],
            CardInput.PromptInput prompt =>
            [
                (nameof(prompt.Words), prompt.Words ?? ""), (nameof(prompt.Hand), $"{prompt.Hand}"), (nameof(prompt.Part), prompt.Part ?? ""),
                (nameof(prompt.Side), $"{prompt.Side}"), (nameof(prompt.Stops), prompt.Stops ?? ""), (nameof(prompt.WaitSeconds), $"{prompt.WaitSeconds}"),
            ],
            CardInput.StepInput step =>
            [
                (nameof(step.Kind), $"{step.Kind}"), (nameof(step.Words), step.Words ?? ""), (nameof(step.WaitSeconds), $"{step.WaitSeconds}"),
                .. step.Goals.Select(goal => (nameof(step.Goals), $"{goal}")),
            ],
            _ => Array.Empty<(string, string)>(),
        },
    ];

    private static void Apply<T>(List<T> items, string[] act) where T : CardInput.Item, new()
    {
        if (act is ["add"])
            items.Add(new T());
        if (act is not [var what, var number] || !int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var at) || at >= items.Count)
            return;
        switch (what)
        {
            case "up":
                Swap(items, at, items.FindLastIndex(at, i => !i.Gone && i != items[at]));
                break;
            case "down":
                Swap(items, at, items.FindIndex(at, i => !i.Gone && i != items[at]));
                break;
            case "remove":
                items[at].Gone = true;
                break;
            case "back":
                items[at].Gone = false;
                break;
        }
    }

    private static void Swap<T>(List<T> items, int one, int other)
    {
        if (other >= 0)
            (items[one], items[other]) = (items[other], items[one]);
    }
}
