using TeamCircle.Core.Things;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Things;

/// <summary>What can follow a promise.</summary>
public sealed record ThingTurns(NoteThing Note, TakeBackThingEvent TakeBack, EndThing End);

/// <summary>What was promised to a learner beside services.</summary>
/// <param name="Things">What is not in place or out of order first, then by name; those that ended last.</param>
/// <param name="MayPromise">Whether the reader writes what is promised.</param>
public sealed record ThingsPage(int LearnerId, string Learner, bool MayPromise, IReadOnlyList<ThingShown> Things);

/// <summary>A thing as it stands.</summary>
/// <param name="Waited">From the promise to the day on which it was there first, or to today.</param>
/// <param name="Outages">Each with how long it lasted.</param>
public sealed record ThingShown(
    int Id, ThingKind Kind, string Name, string? PlanWords, NamedId Owner, LocalDate PromisedOn, LocalDate? DueOn, ThingStory Story, DayCount Waited,
    IReadOnlyList<(Outage Outage, DayCount Days)> Outages, LocalDate? EndedOn, string? EndedWhy, int Version)
{
    /// <summary>Whether somebody waits for it: promised and not there, or out of order.</summary>
    public bool Waits => EndedOn is null && Story.State is ThingState.Promised or ThingState.OutOfOrder;
}

/// <summary>One thing with all that was noted.</summary>
/// <param name="Entries">The latest first; also those that were taken back.</param>
public sealed record ThingPage(
    int LearnerId, string Learner, ThingShown Thing, IReadOnlyList<ThingEntryShown> Entries, IReadOnlyList<NamedId> Goals, IReadOnlyList<NamedId> Routines,
    bool MayPromise, bool MayNote);

/// <param name="By">Who noted it.</param>
public sealed record ThingEntryShown(int Id, ThingAct Act, LocalDate On, string? Words, string? Meanwhile, ThingPlace? Where, string By, bool Live, string? TakenBackReason);

/// <summary>What a promise can be made of, with what stands.</summary>
public sealed record ThingChoices(int LearnerId, string Learner, PromiseThing.Input? Stands, IReadOnlyList<NamedId> Team, IReadOnlyList<NamedId> Goals, IReadOnlyList<NamedId> Routines);

/// <summary>A thing that somebody waits for.</summary>
/// <param name="Since">The day of the promise, or the day on which it broke.</param>
public sealed record ThingWaits(int Id, int LearnerId, string Name, bool IsOut, LocalDate Since, LocalDate? DueOn);

/// <summary>What a routine's card says of a thing that is out of order.</summary>
public sealed record ThingOut(int Id, string Name, Outage Outage, string? Loaner);

/// <summary>An outage on the chart of a goal.</summary>
/// <param name="Until">The last day without it, or today while it lasts.</param>
/// <param name="Goes">Whether it lasts.</param>
public sealed record GoalOutage(int Thing, string Name, LocalDate From, LocalDate Until, bool Goes, string Happened, string? Loaner)
{
    public bool Holds(LocalDate day) => From <= day && day <= Until;
}
