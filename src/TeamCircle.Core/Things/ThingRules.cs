using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Things;

/// <summary>A promise as somebody typed it.</summary>
/// <param name="DueOn">The last day by which it is promised; null where the plan names none.</param>
public sealed record ThingEntry(ThingKind? Kind, string? Name, string? PlanWords, LocalDate? PromisedOn, LocalDate? DueOn);

/// <summary>Who may write what about things that were promised, and what may be written.</summary>
public static class ThingRules
{
    public const int LongestName = 100, LongestWords = 1000;

    /// <summary>What the plan promises is written by the case manager.</summary>
    public static bool MayPromise(Caller caller, int learner) => caller.IsStaff && caller.Manages(learner);

    /// <summary>What happens to a thing is noted by whoever of the team sees it.</summary>
    public static bool MayNote(Caller caller, int learner) => caller.IsStaff && caller.OnTeam(learner);

    /// <summary>What can be noted next. A training takes place; it is never out of order.</summary>
    public static IReadOnlyList<ThingAct> Next(ThingStory story, ThingKind kind) => kind != ThingKind.Training ? story.Next
        : story.State == ThingState.Promised ? [ThingAct.InPlace] : [];

    /// <summary>All problems of a promise.</summary>
    public static IEnumerable<Problem> Check(ThingEntry entry)
    {
        if (entry.Kind is null)
            yield return new("Kind", "Choose what kind of thing it is.");
        if (string.IsNullOrWhiteSpace(entry.Name) || entry.Name.Trim().Length > LongestName)
            yield return new("Name", $"Name it in under {LongestName} letters, as the team calls it.");
        if (entry.PlanWords?.Trim().Length > LongestWords)
            yield return new("PlanWords", $"Keep it under {LongestWords} letters.");
        if (entry.PromisedOn is null)
            yield return new("PromisedOn", "Give the day of the promise: the plan's, or the meeting's.");
        if (entry.DueOn < entry.PromisedOn)
            yield return new("DueOn", "It cannot be due before it was promised.");
    }

    /// <summary>All problems of what is noted next.</summary>
    /// <param name="on">Between the last entry and today, both of them among them.</param>
    public static IEnumerable<Problem> CheckNext(ThingStory story, ThingKind kind, ThingAct? act, LocalDate? on, string? words, string? meanwhile, ThingPlace? where, LocalDate today)
    {
        if (act is not { } next || !Next(story, kind).Contains(next))
            yield return new("Act", "That does not follow from what stands now. Look at the page again.");
        if (on is not { } day || day > today)
            yield return new("OnDay", "Give the day; it cannot be later than today.");
        else if (day < story.LastOn)
            yield return new("OnDay", "Something later is noted already. Take that back first.");
        if (act is ThingAct.Broken or ThingAct.LoanerHere && string.IsNullOrWhiteSpace(words))
            yield return new("Words", act is ThingAct.Broken ? "Say in a few words what happened." : "Say what stands in for it.");
        if (words?.Trim().Length > LongestWords)
            yield return new("Words", $"Keep it under {LongestWords} letters.");
        if (meanwhile?.Trim().Length > LongestWords)
            yield return new("Meanwhile", $"Keep it under {LongestWords} letters.");
        if (where is null && (act is ThingAct.Moved || (act is ThingAct.InPlace && kind != ThingKind.Training)))
            yield return new("Where", "Say where it is.");
    }
}
