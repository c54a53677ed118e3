using System.Globalization;
using NodaTime;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Disputes;

/// <summary>What happened to a visit, in sentences that say what was recorded and judge nothing.</summary>
public static class StoryWords
{
    /// <summary>The sentence, without who and when.</summary>
    /// <param name="names">Of people by id.</param>
    public static string Of(StoryEvent happened, Func<int, string> names) => happened switch
    {
        { Act: StoryAct.Scheduled, Is: { } plan } => $"Scheduled for {When(plan)}, with {names(plan.Provider)}, {Words.Of(plan.Place)}",
        { Act: StoryAct.Moved, Was: { } was, Is: { } now } => $"Moved from {When(was)} to {When(now)}",
        { Act: StoryAct.HandedOver, Was: { } was, Is: { } now } => $"Handed over from {names(was.Provider)} to {names(now.Provider)}",
        { Act: StoryAct.PlaceChanged, Was: { } was, Is: { } now } => $"Place changed from {Words.Of(was.Place)} to {Words.Of(now.Place)}",
        { Act: StoryAct.CalledOff, Is: { } now } => now.CalledOff is { } reason ? $"Called off: {Words.Of(reason)}" : "Called off",
        { Act: StoryAct.BroughtBack, Is: { } now } => $"Back on the calendar for {When(now)}",
        { Act: StoryAct.Removed } => "Taken off the calendar",
        { Act: StoryAct.Entered, Entry: { } entry } => $"First entered: {Outcome(entry)}, {names(entry.Provider)}",
        { Act: StoryAct.Corrected, Entry: { } entry } => $"Corrected: {(happened.EntryWas is { } old ? Difference(old, entry, names) : Outcome(entry))}",
        { Act: StoryAct.TakenBack } => "The entry was taken back",
        _ => Words.Of(happened.Act),
    };

    /// <summary>"given, 9:00 to 9:45 am, 45 minutes, times from the plan"; "not offered, learner unwell".</summary>
    public static string Outcome(VisitEntry entry)
    {
        var words = Words.Of(entry.Outcome);
        if (entry.Outcome != VisitOutcome.NotOffered)
            words += $", {ClockWords.Times(entry.Start, entry.End)}, {Minutes(entry.Credited)}, {(entry.Observed ? "times observed" : "times from the plan")}";
        return entry.Reason is { } reason ? $"{words}, {Words.Of(reason)}" : words;
    }

    private static string Difference(VisitEntry old, VisitEntry entry, Func<int, string> names)
    {
        List<string> parts = [];
        if (Outcome(old) != Outcome(entry))
            parts.Add($"{Outcome(old)} became {Outcome(entry)}");
        if (old.Day != entry.Day)
            parts.Add($"{ClockWords.Weekday(old.Day)} became {ClockWords.Weekday(entry.Day)}");
        if (old.Provider != entry.Provider)
            parts.Add($"given by {names(entry.Provider)}, not {names(old.Provider)}");
        if (old.Place != entry.Place)
            parts.Add($"{Words.Of(old.Place)} became {Words.Of(entry.Place)}");
        if (old.Note != entry.Note)
            parts.Add("the note");
        return parts.Count == 0 ? "words beside the times and minutes" : string.Join("; ", parts);
    }

    private static string When(VisitVersion plan) => $"{ClockWords.Weekday(plan.Day)} {plan.Day.Year.ToString(CultureInfo.InvariantCulture)}, {ClockWords.Times(plan.Start, plan.End)}";

    private static string Minutes(int minutes) => minutes == 1 ? "1 minute" : string.Create(CultureInfo.InvariantCulture, $"{minutes} minutes");
}
