using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Disputes;

/// <summary>What a visit is on the calendar at one moment.</summary>
public enum VisitStanding
{
    Planned,

    /// <summary>Somebody has entered what became of it.</summary>
    Logged,
    CalledOff,

    /// <summary>It stands in no list any more.</summary>
    Gone,
}

/// <summary>A visit on the calendar as one change left it.</summary>
/// <param name="By">Who changed it; null where it came in a file.</param>
public sealed record VisitVersion(
    Instant At, int? By, VisitStanding Standing, LocalDate Day, LocalTime Start, int Minutes, int Provider, Place Place, Reason? CalledOff)
{
    public LocalTime End => Start.PlusMinutes(Minutes);
}

/// <summary>What somebody entered about a visit.</summary>
/// <param name="Replaces">The entry that it corrects; null for a first one.</param>
/// <param name="Why">The reason of a correction.</param>
public sealed record VisitEntry(
    Guid Id, Instant At, int By, VisitOutcome Outcome, LocalDate Day, LocalTime Start, LocalTime End, int Credited, bool Observed,
    Reason? Reason, int Provider, Place Place, string? Note, Guid? Replaces, string? Why)
{
    /// <summary>Whether it came in a file: by nobody's hand, at a moment that says nothing of when it was written down.</summary>
    public bool FromFile { get; init; }
}

/// <summary>An entry that was taken back without another in its place.</summary>
public sealed record EntryTakenBack(Guid Entry, Instant At, int By, string? Why);

public enum StoryAct
{
    Scheduled,
    Moved,
    HandedOver,
    PlaceChanged,
    CalledOff,
    BroughtBack,
    Removed,
    Entered,
    Corrected,
    TakenBack,
}

/// <summary>One thing that happened to a visit.</summary>
/// <param name="By">Null where it came in a file.</param>
/// <param name="Why">The reason that was given; null where none is asked for.</param>
public sealed record StoryEvent(StoryAct Act, Instant At, int? By, string? Why)
{
    /// <summary>The visit before and after; null for what was entered about it.</summary>
    public VisitVersion? Was { get; init; }

    /// <inheritdoc cref="Was"/>
    public VisitVersion? Is { get; init; }

    /// <summary>What was entered, corrected or taken back; null for a change of the calendar.</summary>
    public VisitEntry? Entry { get; init; }

    /// <summary>What a correction replaced.</summary>
    public VisitEntry? EntryWas { get; init; }

    /// <summary>For an entry by hand that corrects none: how long after the visit's end it was made; zero where it was made before.</summary>
    public Duration? Delay { get; init; }
}

/// <summary>A visit's story in order: as scheduled, each change of the calendar, as first entered, each correction.</summary>
/// <remarks>Built from rows that nobody can alter: the trail of changes and the entries themselves, old ones among them.</remarks>
public static class VisitStory
{
    /// <summary>Everything that happened, the oldest first; what happened at one moment stands in the order of the calendar, then the entries.</summary>
    /// <param name="versions">The oldest first. Those in which the visit is logged say nothing of the calendar: entries do.</param>
    /// <param name="entries">All entries, also those that stand no more, in any order.</param>
    /// <param name="zone">In which the visit's local times are meant.</param>
    public static IReadOnlyList<StoryEvent> Of(
        IReadOnlyList<VisitVersion> versions, IReadOnlyList<VisitEntry> entries, IReadOnlyList<EntryTakenBack> takenBack, DateTimeZone zone) =>
        [.. Calendar(versions).Concat(Entered(entries, zone)).Concat(takenBack.Select(t => TakenBack(t, entries))).OrderBy(e => e.At)];

    private static IEnumerable<StoryEvent> Calendar(IReadOnlyList<VisitVersion> versions)
    {
        VisitVersion? plan = null;
        foreach (var version in versions.Where(v => v.Standing != VisitStanding.Logged))
        {
            foreach (var act in plan is null ? [StoryAct.Scheduled] : Between(plan, version))
                yield return new StoryEvent(act, version.At, version.By, null) { Was = plan, Is = version };
            plan = version;
        }
    }

    private static IEnumerable<StoryAct> Between(VisitVersion was, VisitVersion now)
    {
        if (now.Standing == VisitStanding.Gone)
        {
            if (was.Standing != VisitStanding.Gone)
                yield return StoryAct.Removed;
            yield break;
        }
        if (was.Standing != VisitStanding.Planned && now.Standing == VisitStanding.Planned)
            yield return StoryAct.BroughtBack;
        if ((was.Day, was.Start, was.Minutes) != (now.Day, now.Start, now.Minutes))
            yield return StoryAct.Moved;
        if (was.Provider != now.Provider)
            yield return StoryAct.HandedOver;
        if (was.Place != now.Place)
            yield return StoryAct.PlaceChanged;
        if (was.Standing != VisitStanding.CalledOff && now.Standing == VisitStanding.CalledOff)
            yield return StoryAct.CalledOff;
    }

    private static IEnumerable<StoryEvent> Entered(IReadOnlyList<VisitEntry> entries, DateTimeZone zone) => entries.Select(entry =>
        entry.Replaces is { } old
            ? new StoryEvent(StoryAct.Corrected, entry.At, entry.By, entry.Why) { Entry = entry, EntryWas = entries.FirstOrDefault(e => e.Id == old) }
            : new StoryEvent(StoryAct.Entered, entry.At, entry.FromFile ? null : entry.By, null)
            {
                Entry = entry,
                Delay = entry.FromFile ? null : EntryDelay.Of(WallTime.Resolve(entry.Day + entry.End, zone).ToInstant(), entry.At),
            });

    private static StoryEvent TakenBack(EntryTakenBack taken, IReadOnlyList<VisitEntry> entries) =>
        new(StoryAct.TakenBack, taken.At, taken.By, taken.Why) { Entry = entries.FirstOrDefault(e => e.Id == taken.Entry) };
}
