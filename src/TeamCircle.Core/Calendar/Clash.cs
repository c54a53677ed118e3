using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>What stands against a visit.</summary>
public enum ClashKind
{
    /// <summary>The person who gives it has another visit at that time, and it is not one group session.</summary>
    PersonTwice,

    /// <summary>The learner has another visit in their own time, and it is not co-treatment.</summary>
    LearnerTwice,

    /// <summary>The person cannot get there from the visit before, or on to the next.</summary>
    Travel,
    Away,

    /// <summary>Outside the dates of the service; a make-up may lie there.</summary>
    OutsideService,

    /// <summary>No school that day. A person may confirm that the visit takes place all the same.</summary>
    ClosedDay,

    /// <summary>More minutes of the learner's own time that day than the team set as the most. A person may confirm it.</summary>
    OverDailyLimit,
}

/// <param name="Words">A sentence that says what, and with whom.</param>
public sealed record Clash(ClashKind Kind, LocalDate On, string Words)
{
    /// <summary>False: a person may confirm that the visit is scheduled all the same.</summary>
    public bool IsRefused => Kind is not (ClashKind.ClosedDay or ClashKind.OverDailyLimit);
}

/// <summary>A visit that somebody means to schedule. It ends on the day on which it begins.</summary>
/// <param name="Place">The code of the place; null where it is not known.</param>
/// <param name="IsLearnersTime">Whether it takes the learner's own time (direct services).</param>
public sealed record PlannedTime(LocalDate On, LocalTime Start, int Minutes, string? Place, bool IsLearnersTime, bool IsMakeUp)
{
    public LocalTime End => Start.PlusMinutes(Minutes);
}

/// <summary>A time that is taken already; the end does not belong to it.</summary>
/// <param name="With">For a learner's time: who gives that visit.</param>
/// <param name="MayShare">The two may be at one time: one group session, or co-treatment.</param>
/// <param name="IsLearnersTime">For a learner's time: whether it is the learner's own.</param>
public sealed record TakenTime(LocalTime Start, LocalTime End, string? Place, string With, bool MayShare, bool IsLearnersTime);

/// <summary>What stands on the day of a visit, without the visit itself.</summary>
public sealed record DayFacts
{
    /// <summary>The name of the person who gives it.</summary>
    public required string Provider { get; init; }
    public IReadOnlyList<TakenTime> OfProvider { get; init; } = [];
    public IReadOnlyList<TakenTime> OfLearner { get; init; } = [];

    /// <summary>Minutes from one place to another by their codes; null where nobody said.</summary>
    public Func<string, string, int?> Travel { get; init; } = (_, _) => null;

    /// <summary>Whether the service's terms have school that day, closures without notice included.</summary>
    public bool IsSchoolDay { get; init; } = true;

    /// <summary>The name of the closure, where that is why there is no school.</summary>
    public string? ClosedBy { get; init; }

    /// <summary>Where the learner is away that day: until when, in words.</summary>
    public string? AwayUntil { get; init; }

    /// <summary>The service's dates; null for a visit of another kind.</summary>
    public DateRange? Service { get; init; }

    /// <summary>The learner's most minutes a day.</summary>
    public int MostMinutes { get; init; } = 24 * 60;
}
