using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>What the agency already holds, as far as the files may refer to it.</summary>
public sealed record ImportFacts
{
    /// <summary>The agency's date, or the day that counts as today.</summary>
    public required LocalDate Today { get; init; }

    /// <summary>Null for an agency that is new.</summary>
    public AgencyFact? Agency { get; init; }
    public IReadOnlyList<TermFact> Terms { get; init; } = [];
    public IReadOnlyList<PeriodFact> Periods { get; init; } = [];
    public IReadOnlyList<SpecialDay> SpecialDays { get; init; } = [];
    public IReadOnlyList<string> Emails { get; init; } = [];
    public IReadOnlyList<LearnerFact> Learners { get; init; } = [];
    public IReadOnlyList<ServiceFact> Services { get; init; } = [];
    public IReadOnlyList<GoalFact> Goals { get; init; } = [];

    /// <summary>Stored visits on the days of the visits that are brought, and those with a number of the agency's that is brought.</summary>
    public IReadOnlyList<StoredVisit> Visits { get; init; } = [];
}

/// <param name="Policies">All policies that were ever set, the last in force last.</param>
public sealed record AgencyFact(int Weekdays, IsoDayOfWeek WeekStart, IReadOnlyList<Policy> Policies);

public sealed record TermFact(string Name, Term Term);

public sealed record PeriodFact(string Name, LocalDate Start, LocalDate End);

/// <param name="Plans">In order of their first days.</param>
public sealed record LearnerFact(string Code, IReadOnlyList<DateRange> Plans)
{
    /// <summary>The plan that holds a day, else the nearest one that touches the dates, else the last.</summary>
    public DateRange PlanFor(DateRange dates)
    {
        foreach (var plan in Plans)
        {
            if (plan.Holds(dates.First))
                return plan;
        }
        return Plans.Where(p => p.Touches(dates)).Concat(Plans.Reverse()).FirstOrDefault();
    }
}

/// <summary>The amount of a service from a day on, and the code under which it came.</summary>
public sealed record VersionFact(string Code, LocalDate From, int Quantity, int? Sessions);

/// <summary>A service line with its versions, oldest first.</summary>
/// <param name="Code">The code of its first version.</param>
public sealed record ServiceFact(
    string Code, string Learner, Discipline Discipline, ServiceKind Kind, Place Place, SessionFormat Format, LineTerms Terms,
    CoTreatment CoTreatment, ShortWindow? ShortWindow, Every Every, Wording? Wording, LocalDate From, LocalDate To,
    IReadOnlyList<VersionFact> Versions)
{
    public DateRange Dates => DateRange.Of(From, To);

    /// <summary>The last day of a version: the day before the next one starts, or the line's last day.</summary>
    public LocalDate EndOf(int version) => version + 1 < Versions.Count ? Versions[version + 1].From.PlusDays(-1) : To;

    /// <summary>The place of a version in <see cref="Versions"/> by its code; -1 where it is none of them.</summary>
    public int IndexOf(string code)
    {
        for (var i = 0; i < Versions.Count; i++)
        {
            if (string.Equals(Versions[i].Code, code, StringComparison.OrdinalIgnoreCase))
                return i;
        }
        return -1;
    }
}

/// <summary>A goal with what it asks for in probes.</summary>
public sealed record GoalFact(string Code, string Learner, Measure Measure, LocalDate From, LocalDate To, Every Every, int Probes);

/// <summary>A visit that is stored and stands.</summary>
/// <param name="Service">The line's code.</param>
/// <param name="IsPlanned">Not logged yet.</param>
/// <param name="PlannedStart">What was planned before it was logged, where that is known.</param>
/// <param name="TakesTime">False where nobody was anywhere.</param>
/// <param name="LearnersTime">Whether it takes the learner's own time.</param>
/// <param name="Groups">A group session, or adults' time.</param>
/// <param name="GroupNo">Shared by the visits of one group session.</param>
/// <param name="TogetherNo">Shared by the visits of one co-treatment.</param>
public sealed record StoredVisit(
    Guid Id, string? Ref, string Service, string Learner, string Provider, LocalDate Date, LocalTime Start, int Minutes, bool IsPlanned,
    LocalTime? PlannedStart, int? PlannedMinutes, bool TakesTime, bool LearnersTime, bool Groups, CoTreatment CoTreatment, long GroupNo, long TogetherNo);
