using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Commitments;

/// <summary>What lacks in one window, what is recorded about it, and what was decided: everything that people need to decide.</summary>
/// <param name="Discipline">Of the service; null for a goal's probes.</param>
/// <param name="Area">The goal's heading; null for a service.</param>
/// <param name="Owner">Whose probes it is about; null for all owners together and for a service.</param>
/// <param name="Window">How the window was worked out; null where nothing was owed around that day.</param>
/// <param name="ExplainedLeft">What one person alone may decide not owed.</param>
/// <param name="Decisions">Those about this window, also those taken back; the latest first.</param>
/// <param name="Staff">Who of the agency can have taken part.</param>
/// <param name="HasDirector">Whether the second person has to be a director.</param>
public sealed record DecidePage(
    int LearnerId, string Learner, Discipline? Discipline, string? Area, Colleague? Owner, Every Every, bool HasSessions, LocalDate Today,
    WindowWorking? Window, int ExplainedLeft, IReadOnlyList<MissedOnRecord> Missed, IReadOnlyList<DecisionOnRecord> Decisions,
    IReadOnlyList<Colleague> Staff, bool HasDirector);

public sealed record MissedOnRecord(Missed Missed, string Provider);

/// <summary>A decision as it was recorded.</summary>
/// <param name="By">The names of those who took part.</param>
public sealed record DecisionOnRecord(
    int Id, bool Live, DecisionKind Kind, int Amount, int? Sessions, LocalDate DecidedOn, IReadOnlyList<string> By, string? Others,
    LocalDate? FamilyToldOn, LocalDate? ByDay, string? Why, string? TakenBackReason, string RecordedBy);
