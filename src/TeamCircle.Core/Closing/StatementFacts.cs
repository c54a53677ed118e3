using System.Text.Json;
using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Closing;

/// <summary>What stood beside the figures when a count was sealed: one value, kept as one document under the statement's hash, so that
/// the printed statement says for ever what it said then.</summary>
/// <remarks>Whatever can be null has a default, here and in all that it holds: a null is not written, and reads back as one.</remarks>
/// <param name="First">The period's first day.</param>
/// <param name="Last">Its last.</param>
/// <param name="SignedBy">The name of who signed the statement.</param>
/// <param name="Lines">In the order of the sealed lines.</param>
/// <param name="Reports">Who signed the progress report of the period; empty where nobody did.</param>
public sealed record StatementFacts(
    string Agency, string Learner, string Code, string Period, LocalDate First, LocalDate Last, string SignedBy,
    IReadOnlyList<StatementLine> Lines, IReadOnlyList<StatementAward> Awards, IReadOnlyList<StatementSignature> Reports)
{
    /// <summary>Reads what <see cref="StrictJson"/> wrote, in any form of the same content.</summary>
    /// <exception cref="JsonException">The text does not hold such facts.</exception>
    public static StatementFacts Read(string json) => JsonSerializer.Deserialize<StatementFacts>(json, StrictJson.Options)!;
}

/// <summary>What stood beside the figures of one line.</summary>
/// <param name="Code">The agency's code of the service or goal.</param>
/// <param name="Given">For each entry given of the sealed inputs, in their order.</param>
/// <param name="NotGiven">Offered and not taken up, or not offered, on days of the windows that were judged.</param>
/// <param name="Decisions">For each decision of the sealed inputs, in their order.</param>
/// <param name="BroughtForward">From earlier periods, as it stood on the day of the closing.</param>
public sealed record StatementLine(
    string Code, IReadOnlyList<StatementNamed> Named, IReadOnlyList<StatementVersion> Versions, IReadOnlyList<StatementVisit> Given,
    IReadOnlyList<StatementVisit> NotGiven, IReadOnlyList<StatementDecision> Decisions, IReadOnlyList<StatementDebt> BroughtForward)
{
    /// <summary>Null for probes.</summary>
    public StatementService? Service { get; init; }

    /// <summary>Null for a service.</summary>
    public StatementGoal? Goal { get; init; }
}

/// <param name="Wording">Set where the plan's words promise nothing that can be judged.</param>
public sealed record StatementService(Discipline Discipline, ServiceKind Kind, Place Place, SessionFormat Format, Wording? Wording = null);

/// <param name="Owner">For probes asked of each owner: whose.</param>
public sealed record StatementGoal(string Area, string Statement, string? Owner = null);

public sealed record StatementNamed(string Name, LocalDate From, LocalDate To);

/// <summary>What a service promises from a day on, as read and in the plan's own words.</summary>
/// <param name="AssistantsCount">True where minutes that an assistant gives under a supervisor count; null where they do not.</param>
public sealed record StatementVersion(
    LocalDate From, int Quantity, int? QuantityTo = null, int? Sessions = null, string? Words = null, string? Page = null, string? Reason = null,
    bool? AssistantsCount = null);

/// <summary>A visit or probe as it stood on record.</summary>
/// <param name="Who">Null for what an agency brought along.</param>
/// <param name="Start">Such as 09:05; null for a probe and for what was brought along.</param>
/// <param name="NotCounted">Minutes of it that do not count.</param>
/// <param name="Observed">False where the times are from the plan.</param>
/// <param name="ByOther">Given by somebody who was not named for it that day.</param>
/// <param name="EnteredAfter">Days from the visit to the day on which it was entered, or last corrected; null for what came by file, where nobody can tell.</param>
/// <param name="Corrected">Whether it stands in the place of an earlier entry.</param>
/// <param name="Value">A probe's value.</param>
/// <param name="Withheld">Why it counts no minutes though it was given; null where it counts.</param>
public sealed record StatementVisit(
    LocalDate Day, int NotCounted, bool Observed, VisitOutcome Outcome, string? Who = null, string? Start = null, string? End = null, Reason? Reason = null,
    Place? Place = null, SessionFormat? Format = null, bool ByOther = false, int? EnteredAfter = null, bool Corrected = false, decimal? Value = null,
    Withheld? Withheld = null);

/// <summary>A decision, with who took part and when the family was told.</summary>
/// <param name="Others">People without an account who took part.</param>
/// <param name="FamilyToldOn">Null where the family had not been told.</param>
public sealed record StatementDecision(
    LocalDate Day, DebtAmount Amount, DecisionKind Kind, LocalDate DecidedOn, IReadOnlyList<string> People, string? Others = null,
    LocalDate? FamilyToldOn = null, LocalDate? By = null, string? Why = null);

/// <summary>Something brought forward, with what was made up and decided by the day of the closing.</summary>
/// <param name="First">The first day of the window; null for one brought by file.</param>
/// <param name="Day">The day on which the window closed, or the day before it was brought.</param>
public sealed record StatementDebt(
    LocalDate Day, DebtAmount Opened, DebtAmount Open, IReadOnlyList<DebtPayment> Paid, IReadOnlyList<StatementDecision> Decisions, LocalDate? First = null);

/// <summary>An award of compensatory services, with its own balance on the day of the closing.</summary>
/// <param name="Service">The code of the service, where one is named.</param>
/// <param name="InPeriod">Visits for it on days of the period.</param>
public sealed record StatementAward(
    AwardSource Source, string Paper, AwardBalance Balance, Discipline Discipline, LocalDate From, IReadOnlyList<StatementAwardVisit> InPeriod,
    string? Service = null, LocalDate? Until = null);

public sealed record StatementAwardVisit(LocalDate Day, string Who, int Minutes);

/// <summary>A signature on the progress report of the period.</summary>
public sealed record StatementSignature(string Name, string Credential, LocalDate Day);
