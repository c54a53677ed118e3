using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Sessions;

/// <summary>What somebody says became of one visit, for one learner and one service.</summary>
/// <remarks>
/// A visit belongs to one day, in local time. One that goes over midnight is logged as two, so that each counts on its own day.
/// </remarks>
public sealed record SessionEntry
{
    public required VisitOutcome Outcome { get; init; }
    public required LocalDate OnDay { get; init; }
    public required LocalTime Start { get; init; }
    public required LocalTime End { get; init; }

    /// <summary>Minutes of it that do not count: travel, set-up, transfers.</summary>
    public int NotCounted { get; init; }
    public Reason? Reason { get; init; }

    /// <summary>For a make-up: a day of the window that it pays.</summary>
    public LocalDate? PaysOn { get; init; }

    /// <summary>The award of compensatory services that it counts for, and for nothing else.</summary>
    public int? AwardId { get; init; }
    public Place Place { get; init; }
    public SessionFormat Format { get; init; }

    /// <summary>Whether another provider treated together with this one.</summary>
    public bool WithPartner { get; init; }

    /// <summary>For co-treatment that is shared: the minutes stated for this service.</summary>
    public int? SharedMinutes { get; init; }

    /// <summary>For co-treatment that credits the lead only: whether this provider led.</summary>
    public bool Led { get; init; } = true;

    /// <summary>From start to end by the clock on the wall; negative where the end comes first.</summary>
    public int Minutes => (int)Period.Between(Start, End, PeriodUnits.Minutes).Minutes;
}

/// <summary>What was planned before the visit.</summary>
public readonly record struct PlannedTimes(LocalTime Start, int Minutes);

/// <summary>What the service promises on the day of a visit.</summary>
/// <param name="Dates">The service's first and last day.</param>
/// <param name="Windows">Its windows.</param>
/// <param name="Assigned">Whether the person who gave it is assigned to it on that day.</param>
public sealed record PromisedService(
    DateRange Dates, PromiseWindows Windows, Place Place, SessionFormat Format, CoTreatment CoTreatment, bool Assigned)
{
    /// <summary>Days that make-ups name to pay what an agency brought along by file; each is in a window or not.</summary>
    public IReadOnlyList<LocalDate> BroughtByFile { get; init; } = [];

    /// <summary>As what the person who gave it stood to the learner on that day.</summary>
    public Giver Giver { get; init; } = Giver.OfTheTeam;

    /// <summary>Awards of compensatory services that are given by this service.</summary>
    public IReadOnlyList<AwardTerms> Awards { get; init; } = [];
}

/// <param name="Until">Null where the paper names no last day.</param>
/// <param name="MayGive">Whether the person who gave the visit may give it.</param>
public sealed record AwardTerms(int Id, LocalDate From, LocalDate? Until, bool MayGive);

/// <summary>What stands when somebody says what became of a visit.</summary>
/// <param name="Now">Date and time in the agency's zone.</param>
/// <param name="Planned">Null where nobody had scheduled the visit.</param>
public sealed record SessionSituation(LocalDateTime Now, PlannedTimes? Planned, PromisedService Service);

/// <summary>An entry that can be stored.</summary>
/// <param name="Credited">Minutes that the service is credited with (docs/rules.md, part 5).</param>
/// <param name="Notices">What a person should know; it is stored all the same.</param>
public sealed record SessionVerdict(SessionEntry Entry, int Credited, IReadOnlyList<string> Notices)
{
    /// <summary>Why what was given counts no minutes; null where it counts, and where nothing was given.</summary>
    public Withheld? Withheld { get; init; }

    /// <summary>Who has to countersign it; null where nobody does.</summary>
    public int? Supervisor { get; init; }
}
