using TeamCircle.Core.Commitments;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.MakeUps;

/// <summary>What make-up visits are looked for.</summary>
/// <param name="Learner">One learner only; null for all whom the caller may plan for.</param>
/// <param name="Service">One service only; null for all.</param>
/// <param name="Period">The reporting period whose windows are looked at; null for the one that holds today.</param>
public sealed record MakeUpAsk(int? Learner = null, int? Service = null, int? Period = null);

/// <summary>A proposed visit that a person does not want: the service, the first day of the window, and the day.</summary>
public readonly record struct RefusedDay(int Service, LocalDate Window, LocalDate Day);

/// <summary>A window of a service that lacks minutes for which no visit is planned.</summary>
/// <param name="ProviderId">Who would make up for it.</param>
/// <param name="Minutes">What no visit is planned for.</param>
public sealed record LackingWindow(CommitmentLine Line, DateRange Window, int ProviderId, int Minutes)
{
    /// <summary>The window's first day.</summary>
    public LocalDate First => Window.Start;
}

/// <summary>All that the planner takes, with what its numbers stand for.</summary>
/// <param name="Period">The reporting period whose windows lack.</param>
/// <param name="Problem">Its needs are <paramref name="Lacking"/>, in the same order.</param>
/// <param name="Unassigned">Services that lack minutes and have nobody assigned: no visit can be proposed for them.</param>
/// <param name="Assumed">What nobody entered and was assumed instead.</param>
public sealed record MakeUpFacts(
    PeriodRow Period, MakeUpProblem Problem, IReadOnlyList<LackingWindow> Lacking, IReadOnlyList<CommitmentLine> Unassigned,
    AuditNames Names, MakeUpAssumed Assumed)
{
    /// <summary>Whether somebody may plan a visit: the case manager for everybody, a provider for themselves.</summary>
    public static bool MayPlan(Caller caller, int learner, int provider) =>
        caller.Manages(learner) || (caller.IsMember(learner) && caller.PersonId == provider);

    /// <summary>The position of the need of a window; -1 where nothing lacks in it that is not planned.</summary>
    public int Find(int service, LocalDate day) =>
        Lacking.ToList().FindIndex(l => l.Line.Id == service && l.Window.Holds(Day.Of(day)));
}

/// <param name="Providers">People of whom no working hours are entered.</param>
/// <param name="Learners">Learners of whom no open hours are entered.</param>
/// <param name="TravelMinutes">What was taken for ways whose minutes nobody entered; null where all were known.</param>
public sealed record MakeUpAssumed(IReadOnlyList<int> Providers, IReadOnlyList<int> Learners, int? TravelMinutes)
{
    /// <summary>From eight to four, on each day of the calendar.</summary>
    public static readonly LocalTime From = new(8, 0), To = new(16, 0);
}
