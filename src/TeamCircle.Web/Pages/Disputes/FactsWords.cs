using NodaTime;
using TeamCircle.Core.Disputes;
using TeamCircle.Data.Disputes;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Disputes;

/// <summary>What stands around a visit's story, in words.</summary>
internal static class FactsWords
{
    /// <summary>6 October 2026, 4:12 pm</summary>
    public static string At(FactsInOrder facts, Instant at)
    {
        var local = at.InZone(facts.Zone).LocalDateTime;
        return $"{Say.ShortDay(local.Date)} {local.Year}, {Say.Time(local.TimeOfDay)}";
    }

    /// <summary>Who did it, how late, and the reason that was given.</summary>
    public static string Beside(FactsInOrder facts, StoryEvent happened)
    {
        var words = happened.By is { } person ? $"by {facts.Name(person)}" : "from a file";
        if (happened.Delay is { } delay)
            words += delay == Duration.Zero ? ", before the visit was to end" : $", {EntryDelay.Words(delay)} after the end of the visit";
        return Say.Begin(happened.Why is { Length: > 0 } why ? $"{words}: {why}" : words);
    }

    /// <summary>What stands today; null where the story has said so: one entry, on one of the days.</summary>
    public static string? Now(FactsInOrder facts, FactsVisit visit)
    {
        var isElsewhere = visit.On < facts.From || visit.On > facts.To;
        if (visit is { Standing: not null } && !isElsewhere && visit.Story.Count(e => e.Entry is not null) == 1)
            return null;
        var words = visit switch
        {
            { Standing: { } entry } => $"Stands as: {StoryWords.Outcome(entry)}",
            { State: VisitStanding.Planned } => "Stands as planned; nobody has entered what became of it",
            { State: VisitStanding.CalledOff } => "Stands as called off",
            _ => $"Stands in no list any more, was on {Say.Weekday(visit.On)}",
        };
        return isElsewhere ? $"{words}; moved out of these days" : words;
    }

    public static IEnumerable<string> Notes(FactsVisit visit)
    {
        if (visit.UnderHold)
            yield return "First entered while a hold kept the records of this day.";
        if (visit.Travel is { } travel)
        {
            foreach (var road in new[] { Road("before", travel.GapBefore, travel.RoadBefore), Road("after", travel.GapAfter, travel.RoadAfter) }.OfType<string>())
                yield return road;
        }
        if (visit.SameNote > 0)
            yield return $"The same note, word for word, stands at {Say.Count(visit.SameNote, "other visit")} of these days.";
    }

    /// <summary>The day's closure, time away, hold or decision.</summary>
    public static string Around(FactsInOrder facts, FactAround around)
    {
        var words = FactsSheet.Words(facts, around);
        return around.Kind switch
        {
            AroundKind.Closure => $"No school: {words}",
            AroundKind.Away => $"Away{Until(around)}: {words}",
            AroundKind.Hold => $"Hold on practising{Until(around)}: {words}",
            AroundKind.Family => $"The family: {words}",
            AroundKind.RecordHold => $"Records held{Until(around)}: {words}",
            _ => words,
        };
    }

    /// <summary>Half within 3 hours, nine of ten within 2 days, 14 entries.</summary>
    public static string Delay(DelayOf delay) =>
        $"Half within {EntryDelay.Words(delay.Median)}, nine of ten within {EntryDelay.Words(delay.Most)}; {Say.Number(delay.Entries)} {(delay.Entries == 1 ? "entry" : "entries")}";

    private static string? Road(string where, int? gap, int? road) => (gap, road) switch
    {
        ({ } minutes, { } takes) => $"{Say.Minutes(minutes)} {(where == "before" ? "since the visit before" : "to the visit after")} by the same person; the road takes {Say.Minutes(takes)}{(minutes < takes ? ": this cannot be driven" : "")}.",
        _ => null,
    };

    private static string Until(FactAround around) =>
        around.Until is { } until ? until == around.From ? "" : $" {Say.Dates(around.From, until)}" : $" from {Say.Day(around.From)}";
}
