namespace TeamCircle.Core.Commitments;

/// <summary>The sums of one unit over the windows that close in a period (docs/rules.md, parts 6 to 8).</summary>
/// <param name="LackSoFar">What lacks in windows that are past.</param>
/// <param name="DueSoFar">What is due in windows that are past.</param>
/// <param name="Undecided">What lacks so far and nobody decided about.</param>
/// <param name="ShortAsPlanned">What would still lack if all that is planned within the period took place.</param>
public readonly record struct PeriodBalance(
    int Owed, int NotOwed, int Due, int Given, int Lack, int LackSoFar, int DueSoFar, int Undecided, int ShortAsPlanned)
{
    /// <summary>What was given as far as it counts against what is due.</summary>
    public int Credited => Due - Lack;

    public int GivenSoFar => DueSoFar - LackSoFar;

    public int PlannedToCome => Lack - ShortAsPlanned;

    public int StillToPlan => ShortAsPlanned;

    /// <summary>The sums of this and another line together, for totals; each line is still judged by itself.</summary>
    public PeriodBalance Plus(in PeriodBalance other) => new(
        Owed + other.Owed, NotOwed + other.NotOwed, Due + other.Due, Given + other.Given, Lack + other.Lack, LackSoFar + other.LackSoFar,
        DueSoFar + other.DueSoFar, Undecided + other.Undecided, ShortAsPlanned + other.ShortAsPlanned);
}

/// <summary>Which unit gave a line its status.</summary>
public enum WorseUnit
{
    /// <summary>Minutes and sessions stand alike, or no sessions are promised.</summary>
    Alike,
    Minutes,
    Sessions,
}

/// <summary>Sums over the windows that are open at the end of the period: what they owe, should have and had by then.</summary>
public readonly record struct OpenBalance(int Windows, int Owed, int Pace, int Given, bool AllOnPace);

/// <summary>How many things of a line a person should look at; <see cref="Working"/> lists them.</summary>
/// <param name="Outside">Visits, given or planned within the period, that count for nothing: outside the dates, in no window, or in one without a school day.</param>
/// <param name="NamesNoWindow">Make-ups that name a day in no window with a school day: bad input, left out of every sum.</param>
/// <param name="IgnoredDecisions">Decisions that name no window with a school day.</param>
/// <param name="NeverLogged">Visits planned before the as-of day and never logged.</param>
/// <param name="ClosingInNoPeriod">Windows that close in no reporting period.</param>
/// <param name="YearBeyondCalendar">Whether part of the plan year is expected, not known.</param>
public readonly record struct ToCheck(
    int Outside, int NamesNoWindow, int IgnoredDecisions, int NeverLogged, int ClosingInNoPeriod, bool YearBeyondCalendar)
{
    public bool IsEmpty => this == default;
}

/// <summary>Where one line or probe commitment stands in one reporting period as of one day.</summary>
/// <param name="Minutes">Sums in minutes, or in probes.</param>
/// <param name="Sessions">Sums in sessions; all zero where <paramref name="HasSessions"/> is false.</param>
/// <param name="PlannedLater">What make-ups planned after the period would pay to windows that close in it; changes no status.</param>
/// <param name="SpaceLeft">An upper bound of what still fits into the learner's days, or null where the learner's time is not used.</param>
/// <param name="MadeUpSince">What make-ups dated after the period's end paid to windows that close in it.</param>
/// <param name="Outside">Minutes up to the as-of day that count for nothing, whatever the period.</param>
/// <param name="UndecidedSince">The day on which the oldest window closed in which something is undecided; <see cref="Time.Day.None"/> where nothing is.</param>
/// <param name="Status">The worse of the two units; <see cref="Worse"/> says which.</param>
public readonly record struct Balance(
    PeriodBalance Minutes,
    PeriodBalance Sessions,
    bool HasSessions,
    OpenBalance Open,
    int PlannedLater,
    int? SpaceLeft,
    int MadeUpSince,
    int Outside,
    int UndecidedSince,
    Status Status,
    WorseUnit Worse,
    ToCheck ToCheck)
{
    /// <summary>What earlier periods brought forward; in no other figure of this one.</summary>
    public DebtSums BroughtForward { get; init; }
}
