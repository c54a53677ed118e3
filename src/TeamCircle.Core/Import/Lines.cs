using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

// Good rows, read and checked. Codes and e-mails are those of rows that are known or come in the same import.

/// <summary>What agency.json says.</summary>
/// <param name="Weekdays">Ordinary weekdays, bit 0 Monday to bit 6 Sunday.</param>
public sealed record AgencyLine(string Name, string TimeZone, int Weekdays, IsoDayOfWeek WeekStart, Policy Policy);

public sealed record TermLine(string File, int Line, string Name, LocalDate FirstDay, LocalDate LastDay, TermKind Kind);

public sealed record PeriodLine(string File, int Line, string Name, LocalDate Start, LocalDate End);

public sealed record ClosureLine(string File, int Line, LocalDate Date, string Name, ClosureKind Kind);

public sealed record PersonLine(
    string File, int Line, string Email, string Name, IReadOnlyList<Role> Roles, IReadOnlyList<Discipline> Disciplines, string? Credential);

public sealed record LearnerLine(
    string File, int Line, string Code, string Name, LocalDate PlanStart, LocalDate PlanEnd, string CaseManager,
    IReadOnlyList<string> Team, IReadOnlyList<string> Family, int MostMinutesADay, string? SendingDistrict);

/// <summary>A service, or a new version of one.</summary>
/// <param name="LineCode">The code that names the line: its own, or that of the service it continues.</param>
/// <param name="To">The last day of this version.</param>
public sealed record ServiceLine(
    string File, int Line, string Code, string LineCode, string Learner, Discipline Discipline, string? Provider,
    int Quantity, int? QuantityTo, int? Sessions, Every Every, LocalDate From, LocalDate To, Place Place, ServiceKind Kind,
    LineTerms Terms, CoTreatment CoTreatment, ShortWindow? ShortWindow, SessionFormat Format, Wording? Wording,
    string? PlanWords, string? PlanPage);

public sealed record GoalLine(
    string File, int Line, string Code, string Learner, string Area, string Statement, Measure Measure, Better Better,
    decimal? Baseline, decimal? Target, LocalDate? TargetDay, (int Days, int Of)? Criterion, int Probes, Every Every, bool ByEach,
    IReadOnlyList<string> Owners, LocalDate From, LocalDate To);

public sealed record AssignmentLine(string File, int Line, string Service, string Person, LocalDate From, LocalDate To);

public sealed record BalanceLine(
    string File, int Line, string Service, LocalDate AsOf, int? GivenBefore, int? BroughtForward, int? Award, string? Source, LocalDate? Until);

/// <summary>A visit, planned or past.</summary>
/// <param name="Service">The line's code.</param>
/// <param name="Stored">The stored visit that it is, or null for a new one.</param>
/// <param name="NotCounted">Minutes that do not count.</param>
/// <param name="Format">Null where the row does not say: as stored, or as promised. So with the place.</param>
public sealed record VisitLine(
    string File, int Line, StoredVisit? Stored, string Service, string Learner, string Provider, LocalDate Date, LocalTime Start, LocalTime End,
    VisitOutcome Outcome, LocalTime? PlannedStart, int? PlannedMinutes, Reason? Reason, LocalDate? PaysOn, int NotCounted,
    SessionFormat? Format, Place? Place, string? Partner, string? Note, string? Ref, bool LearnersTime, bool Groups, CoTreatment CoTreatment)
{
    public int Minutes => (int)Period.Between(Start, End, PeriodUnits.Minutes).Minutes;

    /// <summary>A visit not offered takes no time: nobody was anywhere.</summary>
    public bool TakesTime => Outcome != VisitOutcome.NotOffered;
}

/// <param name="Service">The line's code, or null where it is about a goal.</param>
public sealed record DecisionLine(
    string File, int Line, string? Service, string? Goal, string Learner, LocalDate Date, int Amount, int? Sessions, DecisionKind Kind,
    LocalDate DecidedOn, IReadOnlyList<string> By, LocalDate? FamilyToldOn, string? Note);

public sealed record ProbeLine(
    string File, int Line, string Goal, string Learner, string Provider, LocalDate Date, decimal Value, int? Opportunities,
    ProbeKind Kind, Stage? Stage, LocalDate? PaysOn);
