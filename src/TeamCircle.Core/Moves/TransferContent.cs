using System.Text.Json;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Reports;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Moves;

/// <summary>What a receiving agency is given about a learner, as it stood when the file was made. No working notes of the staff, no trials, and
/// nobody's part of a report before it was joined and shared.</summary>
public sealed record TransferContent
{
    /// <summary>The legal name.</summary>
    public required string Learner { get; init; }

    /// <summary>The name that the learner goes by; null where it is the legal one.</summary>
    public string? Called { get; init; }
    public required string Code { get; init; }

    /// <summary>The day on which it was made.</summary>
    public required LocalDate AsOf { get; init; }
    public required LocalDate LastDay { get; init; }
    public required string ToWhere { get; init; }

    /// <summary>The plan in force; null where there was none.</summary>
    public LocalDate? PlanFrom { get; init; }
    public LocalDate? PlanTo { get; init; }
    public IReadOnlyList<TransferService> Services { get; init; } = [];
    public IReadOnlyList<TransferBalance> Balances { get; init; } = [];
    public IReadOnlyList<TransferDebt> BroughtForward { get; init; } = [];
    public IReadOnlyList<TransferAward> Awards { get; init; } = [];
    public required string Works { get; init; }
    public string? WorksNot { get; init; }
    public IReadOnlyList<TransferTeaching> Teaching { get; init; } = [];
    public IReadOnlyList<TransferRoutine> Routines { get; init; } = [];
    public IReadOnlyList<TransferGoal> Goals { get; init; } = [];
    public IReadOnlyList<TransferReport> Reports { get; init; } = [];
    public IReadOnlyList<TransferStatement> Statements { get; init; } = [];
    public IReadOnlyList<TransferHold> Holds { get; init; } = [];

    public string Write() => JsonSerializer.Serialize(this, StrictJson.Options);

    /// <exception cref="JsonException">The text is no such JSON.</exception>
    public static TransferContent Read(string json) => JsonSerializer.Deserialize<TransferContent>(json, StrictJson.Options) ?? throw new JsonException("The file is empty.");
}

/// <param name="Minutes">In each window; <paramref name="MinutesTo"/> is the high end of a range.</param>
/// <param name="Givers">Who was named on the day, by name; empty: nobody.</param>
/// <param name="AsWritten">The plan's own words; null where they were not entered.</param>
public sealed record TransferService(
    string Code, Discipline Discipline, ServiceKind Kind, Place Place, SessionFormat Format, int Minutes, EveryUnit EveryUnit, int EveryCount, LocalDate From, LocalDate To,
    IReadOnlyList<string> Givers, int? MinutesTo = null, int? Sessions = null, string? AsWritten = null);

/// <summary>One service in one reporting period, over its windows that had closed by the day.</summary>
/// <param name="Due">Minutes owed, less those decided not owed.</param>
/// <param name="Lacking">Minutes due and not given.</param>
/// <param name="OpenOwed">What the window owes in all that had begun and not closed, of a service that is counted by such long windows; 0 where there is none.</param>
/// <param name="OpenGiven">What was given in it by the day.</param>
public sealed record TransferBalance(string Period, string Code, Discipline Discipline, int Due, int Given, int Lacking, int OpenOwed = 0, int OpenGiven = 0);

/// <param name="Open">Minutes, or probes, not given yet.</param>
public sealed record TransferDebt(string Code, LocalDate On, int Open, int Sessions, bool IsProbes);

/// <param name="Amount">Minutes or sessions, by the paper.</param>
public sealed record TransferAward(string Paper, Discipline Discipline, int Amount, int Given, bool InSessions, LocalDate From, LocalDate? Until = null);

public sealed record TransferTeaching(TeachPart Part, string Words, LocalDate WrittenOn, string WrittenBy);

/// <param name="Card">The card as it stood; null where nobody wrote it.</param>
public sealed record TransferRoutine(string Name, string? Cue = null, RoutineContent? Card = null);

/// <param name="Now">The middle of the last three probes; null where there are none.</param>
/// <param name="NowOn">The day of the last of them.</param>
public sealed record TransferGoal(
    string Area, string Statement, Measure Measure, IReadOnlyList<string> Objectives, decimal? Baseline = null, decimal? Target = null, LocalDate? TargetDay = null,
    decimal? Now = null, LocalDate? NowOn = null);

/// <summary>A progress report that was shared with the family.</summary>
public sealed record TransferReport(string Period, LocalDate SharedOn, IReadOnlyList<TransferReported> Goals);

public sealed record TransferReported(string Area, ReportStatus? Said = null, string? Words = null);

/// <summary>A parent's statement (34 CFR 300.620(c)): it goes wherever the record goes.</summary>
public sealed record TransferStatement(string Words, string GivenBy, LocalDate GivenOn);

/// <summary>A hold on records that stood on the day.</summary>
public sealed record TransferHold(LocalDate From, LocalDate To, string Reason);
