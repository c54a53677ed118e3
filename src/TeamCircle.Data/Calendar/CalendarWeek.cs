using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Calendar;

/// <summary>Which week of whose visits somebody asks for.</summary>
/// <param name="Learner">Of this learner; null: of the caller.</param>
/// <param name="Team">The whole team's visits instead: of that learner's team, or of the teams of all the caller's learners.</param>
/// <param name="Day">Any day of the week; null: today.</param>
public sealed record WeekAsked(int? Learner, bool Team, LocalDate? Day);

/// <summary>A week as a calendar shows it.</summary>
/// <param name="Days">The seven days, from the first day of the agency's week.</param>
/// <param name="Ordinary">Those of them on which the agency has school by its weekdays, whatever the closures.</param>
/// <param name="Visits">By day and start; called-off ones are among them.</param>
/// <param name="Busy">When colleagues are taken by visits of which the caller may not know more; only in a team's week.</param>
/// <param name="Closures">Closures and extra days by their day.</param>
/// <param name="Aways">The learner's times away that touch the week; empty for a week that is not one learner's.</param>
/// <param name="Routines">What is to be practised at a visit, by its number.</param>
/// <param name="Home">What is to be practised at home, in one learner's week.</param>
/// <param name="Learners">On whose teams the caller is, by name.</param>
public sealed record CalendarWeek(
    IReadOnlyList<LocalDate> Days, IReadOnlySet<LocalDate> Ordinary, IReadOnlyList<WeekVisit> Visits, IReadOnlyList<BusySpan> Busy,
    IReadOnlyDictionary<LocalDate, DayNamed> Closures, IReadOnlyList<AwaySpan> Aways, ILookup<Guid, string> Routines, IReadOnlyList<HomeSpan> Home,
    IReadOnlyList<NamedId> Learners)
{
    /// <summary>What stops something at visits of today or later, by visit.</summary>
    public required ILookup<Guid, HoldShown> Holds { get; init; }

    public LocalDate First => Days[0];

    public LocalDate Last => Days[^1];

    /// <summary>Whether a visit is planned on a day that was closed later, and nobody has said what becomes of it.</summary>
    public bool StandsOnClosure(WeekVisit visit) =>
        visit is { State: VisitState.Planned, OnClosedDay: false } && Closures.TryGetValue(visit.On, out var day) && day.Kind != ClosureKind.Extra;

    public AwaySpan? AwayOn(LocalDate day) => Aways.FirstOrDefault(a => a.From <= day && (a.Until is null || a.Until >= day));
}

/// <param name="Provider">A name.</param>
/// <param name="Partner">The name of who treats together with them.</param>
/// <param name="IsNotPossible">Whether the learner's time away called it off.</param>
/// <param name="Outcome">What became of it, once logged.</param>
/// <param name="Reason">Why it was called off or not given; null where nothing was said.</param>
/// <param name="Expected">When somebody who runs late expects to begin.</param>
public sealed record WeekVisit(
    Guid Id, LocalDate On, LocalTime Start, int Minutes, int LearnerId, string Learner, VisitKind Kind, Discipline? Discipline, int ProviderId,
    string Provider, string? Partner, Place Place, bool IsMakeUp, VisitState State, bool IsNotPossible, VisitOutcome? Outcome, Reason? Reason,
    LocalTime? Expected)
{
    public LocalTime End => Start.PlusMinutes(Minutes);

    /// <summary>Whether a person said that it takes place though there is no school that day.</summary>
    public bool OnClosedDay { get; init; }

    internal Instant Begins { get; init; }
}

/// <summary>A time in which a colleague is taken; nothing says by whom.</summary>
/// <param name="Place">The code of the place; null where none is known.</param>
public sealed record BusySpan(LocalDate On, LocalTime Start, LocalTime End, int ProviderId, string Provider, string? Place);

public sealed record DayNamed(string Name, ClosureKind Kind);

/// <param name="Days">Those of the week, in order.</param>
/// <param name="Who">Null where nobody was named.</param>
public sealed record HomeSpan(string Routine, string? Who, IReadOnlyList<LocalDate> Days);

/// <param name="Until">The last day, which belongs to it; null while nobody knows.</param>
public sealed record AwaySpan(LocalDate From, LocalDate? Until, AwayReason Reason);
