using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Ui;

/// <summary>What stands on a routine's card, put into the words and the order of the page.</summary>
public static class CardView
{
    /// <summary>How it is set up: what is said of each, in the order of the card; what nothing is said about is left out.</summary>
    public static IEnumerable<(string Term, string Text)> SetUp(RoutineContent card)
    {
        (string Term, string? Text)[] all =
        [
            ("Position", card.Position), ("Support", card.Support is { } support ? $"{support.TrimEnd('.')}. Access, not a prompt." : null),
            ("Light", card.Light), ("Background", card.Background), ("Side", card.Side), ("Height", card.Height), ("Distance", card.Distance),
            ("Switch or device", card.Device is { } device ? CardWords.Which(device) : null), ("Mount", card.Device?.Mount), ("Measures", card.Device?.Measures),
            ("What it sets going", card.Appliance is { } appliance ? CardWords.Of(appliance) : null),
            ("Materials", card.Materials), ("Place", card.Place is { } place ? Say.Begin(Say.Place(place)) : null),
        ];
        return Said(all);
    }

    /// <summary>What belongs to the cautions without being one: eating, allergies, food, power, flashing light.</summary>
    public static IEnumerable<(string Term, string Text)> Care(RoutineContent card) => Said(
    [
        ("Texture", card.Texture), ("Allergies", card.Allergies), ("Who feeds", card.WhoFeeds), ("Food or power near", card.FoodOrPowerNear),
        ("Flashing light", card.Flashing ? "Something here flashes, flickers or turns in the light." : null), ("Seizures", card.SeizuresAsked),
    ]);

    /// <summary>What a card warns of, by kinds: swallowing, allergies, power and water. Null where it warns of nothing.</summary>
    public static string? InOneLine(RoutineContent card)
    {
        string[] kinds = [.. card.Cautions.Select(c => Core.Words.Of(c.Kind)).Concat(card.Flashing ? [Core.Words.Of(CautionKind.FlashingLight)] : []).Distinct()];
        return kinds.Length == 0 ? null : $"Cautions that you have read: {Say.List(kinds)}";
    }

    /// <summary>Before a prompt: after 12 seconds of silence; with the cue. Null where nobody has entered a wait, or the steps differ in it.</summary>
    public static string? WaitWords(RoutineContent card, Prompt prompt) =>
        card.Procedure == PromptProcedure.Simultaneous ? "with the cue, without a wait"
        : (prompt.WaitSeconds ?? card.WaitSeconds) switch
        {
            null => null,
            0 => "at once, without a wait",
            { } seconds => $"after {CardWords.Seconds(seconds)} of silence",
        };

    /// <summary>The wait that the form proposes; it never enters one itself.</summary>
    public static string Wait(WaitProposal proposal) => proposal is { Longest: { } longest, Seconds: { } seconds }
        ? $"The longest wait that ended in a response so far was {CardWords.Seconds((longest + 999) / 1000)}; with half again it would be {CardWords.Seconds(seconds)}. The team decides."
        : WaitProposal.BeforeData;

    public static bool MayPractise(RoutinePage page) =>
        page is { Ended: null, IsNewest: true, Card.Number: > 0 } && page.Card.Content.Steps.Count > 0 && page.Card.Review.Standing.State != ReviewState.Missing
        && !page.Holds.Any(h => h.Stops[page.Id] == HoldEffect.Whole);

    /// <summary>Reviewed by Priya Lindqvist, physical therapy, on 14 September 2026; holds until 13 September 2027. Null without a review.</summary>
    public static string? Reviewed(CardReview review) => review is { By: { } by, As: { } discipline, Standing: { Review: { } given, Until: { } until } }
        ? $"Reviewed by {by}, {Words(discipline)}, on {Say.Date(given.On)}; {(review.Standing.State == ReviewState.Missing ? "ran out on" : "holds until")} {Say.Date(until)}."
        : null;

    /// <summary>Why it is not to be practised.</summary>
    public static string WhyNot(CardReview review) => review.Standing switch
    {
        { Review: not null, Until: { } until } => $"The review ran out on {Say.Date(until)}.",
        { IsOutdated: true } => "Position, support, physical prompts, cautions, device or feeding have changed since the last review.",
        _ => "There is positioning or physical assistance in it, and no licensed member of the team has reviewed it yet.",
    };

    /// <summary>A goal as a difference names it.</summary>
    public static string Goal(RoutinePage page, int goal) => page.Goals.TryGetValue(goal, out var named) ? $"{named.Area} ({named.Code})" : "a goal";

    public static string Picture(PictureKind kind) => kind switch
    {
        PictureKind.Cue => "object cue",
        PictureKind.SetUp => "set-up",
        _ => "mount of the switch",
    };

    private static string Words(Discipline discipline) => Core.Words.Of(discipline);

    private static IEnumerable<(string Term, string Text)> Said((string Term, string? Text)[] all) =>
        all.Where(a => a.Text is not null).Select(a => (a.Term, a.Text!));
}
