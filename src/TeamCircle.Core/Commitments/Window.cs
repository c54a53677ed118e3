using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>One window of a promise, whole, never cut by a reporting period (docs/rules.md, parts 2 to 4).</summary>
/// <param name="Days">The whole window.</param>
/// <param name="Active">From the first to the last scheduled day within the line's dates; empty where there is none.</param>
/// <param name="ScheduledDays">Scheduled days of the whole window, expected ones included.</param>
/// <param name="ActiveDays">Those of them within the line's dates; where 0, nothing is owed and nothing counts here.</param>
/// <param name="Base">The days a promise is spread over: scheduled days and, for weeks and months, the ordinary days outside the terms.</param>
/// <param name="OrdinaryDays">Ordinary days of the whole window, whatever the terms and closures.</param>
/// <param name="ExpectedDays">How many of the scheduled days lie beyond the calendar: expected, not known.</param>
public readonly record struct Window(
    DateRange Days, DateRange Active, int ScheduledDays, int ActiveDays, int Base, int OrdinaryDays, int ExpectedDays)
{
    /// <summary>Whether the line has a school day in it.</summary>
    public bool IsActive => ActiveDays > 0;

    /// <summary>The last active day; it decides the reporting period.</summary>
    public int Closes => IsActive ? Active.Last : Day.None;
}
