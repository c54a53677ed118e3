using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.People;

/// <summary>One supervision visit in each window: every so many weeks or months from the first day on.</summary>
/// <param name="Every">Weeks or months.</param>
/// <param name="To">The last day; null: until further notice. Both days belong to it.</param>
public sealed record SupervisionPromise(Every Every, LocalDate From, LocalDate? To);

/// <summary>A window of it; both days belong to it.</summary>
/// <param name="Held">How many supervision visits took place in it.</param>
public sealed record SupervisionWindow(LocalDate First, LocalDate Last, int Held);

/// <summary>Where a supervision stands on a day.</summary>
/// <param name="Missed">Windows that are over and held no visit, oldest first.</param>
/// <param name="Current">The window that runs; null before the first and after the last.</param>
public sealed record SupervisionStanding(IReadOnlyList<SupervisionWindow> Missed, SupervisionWindow? Current)
{
    /// <summary>By when the next visit is due; null where none is asked any more, or the one of this window took place.</summary>
    public LocalDate? DueBy => Current is { Held: 0 } ? Current.Last : null;

    /// <summary>Whether the window before the one that runs went by without a visit, and this one has held none yet.</summary>
    public bool IsOverdue => DueBy is not null && Missed.Count > 0 && Missed[^1].Last == Current!.First.PlusDays(-1);
}

/// <summary>How often an assistant is watched at work, by the calendar alone: closures and school days do not matter here.</summary>
/// <remarks>
/// Windows follow one another from the first day: blocks of 7k days, or from a day of the month to the day before the same day k months on (where a
/// month lacks that day, its last). One that the last day cuts short asks for nothing. What was held twice in one window pays for no other.
/// </remarks>
public static class SupervisionRules
{
    private const int MostWindows = 52;

    /// <summary>Where it stands.</summary>
    /// <param name="held">Days of supervision visits, in any order.</param>
    public static SupervisionStanding Standing(SupervisionPromise promise, IReadOnlyCollection<LocalDate> held, LocalDate today)
    {
        var windows = Windows(promise, today).Select(w => w with { Held = held.Count(d => w.First <= d && d <= w.Last) }).ToList();
        return new([.. windows.Where(w => w.Last < today && w.Held == 0)], windows.Find(w => w.First <= today && today <= w.Last));
    }

    /// <summary>All problems of a commitment; none where it can be stored.</summary>
    /// <param name="assistants">Who works with the learner as an assistant today or later.</param>
    public static IEnumerable<Problem> Check(int? assistant, Every every, LocalDate? from, LocalDate? to, IReadOnlySet<int> assistants)
    {
        if (assistant is not { } who || !assistants.Contains(who))
            yield return new("Assistant", "Choose an assistant of this learner.");
        if (every.Unit is not (EveryUnit.Week or EveryUnit.Month))
            yield return new("EveryUnit", "Choose weeks or months.");
        if (every.Count is < 1 or > MostWindows)
            yield return new("EveryCount", "Give a whole number from 1 to 52.");
        if (from is null)
            yield return new("FromDay", "Give the first day.");
        else if (to < from)
            yield return new("ToDay", "The last day comes before the first.");
    }

    /// <summary>All problems of a supervision visit; none where it can be stored.</summary>
    /// <param name="isAssistantThen">Whether the person worked with the learner as an assistant on that day.</param>
    public static IEnumerable<Problem> CheckVisit(LocalDate? day, int? minutes, bool isAssistantThen, LocalDate today)
    {
        if (day is not { } on)
            yield return new("OnDay", "Say on which day it was.");
        else if (on > today)
            yield return new("OnDay", "That day is still to come.");
        else if (!isAssistantThen)
            yield return new("OnDay", "Nobody worked as this assistant on that day.");
        if (minutes is not (>= 1 and <= 720))
            yield return new("Minutes", "Give its length in minutes, from 1 to 720.");
    }

    private static IEnumerable<SupervisionWindow> Windows(SupervisionPromise promise, LocalDate today)
    {
        for (var n = 0; ; n++)
        {
            var (first, last) = (Begin(promise, n), Begin(promise, n + 1).PlusDays(-1));
            if (first > today || last > promise.To)
                yield break;
            yield return new(first, last, 0);
        }
    }

    private static LocalDate Begin(SupervisionPromise promise, int number) => promise.Every.Unit == EveryUnit.Month
        ? promise.From.PlusMonths(number * promise.Every.Count)
        : promise.From.PlusWeeks(number * promise.Every.Count);
}
