using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests;

/// <summary>One plain school year, 17 August 2026 to 11 June 2027, Monday to Friday, with a week of Thanksgiving off.</summary>
internal static class SchoolYear
{
    private static readonly SchoolCalendar Calendar = new(
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday],
        IsoDayOfWeek.Monday,
        [new Term(new(2026, 8, 17), new(2027, 6, 11), TermKind.Regular)],
        [.. Enumerable.Range(23, 5).Select(d => new SpecialDay(new(2026, 11, d), ClosureKind.Published))]);

    /// <summary>The dates of every line here: 17 August 2026 to 6 May 2027.</summary>
    public static readonly DateRange Line = DateRange.Of(new(2026, 8, 17), new(2027, 5, 6));

    /// <summary>Windows of a promise per week.</summary>
    public static PromiseWindows Weeks { get; } =
        new WindowCatalog(Calendar, []).Of(new Promise(new(EveryUnit.Week, 1), Line, new PromiseVersion(Line.First, 60)), Line);

    public static PromisedService Service(CoTreatment coTreatment = CoTreatment.None, bool assigned = true) =>
        new(Line, Weeks, Place.Home, SessionFormat.Individual, coTreatment, assigned);
}
