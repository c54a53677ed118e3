using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Papers;

/// <summary>Days that bind: when they come, how near they are, and what holds for those that people keep (docs/rules.md, "Dates that bind").</summary>
/// <remarks>Days are calendar days unless a name says school days. Where a year or a month has no such day, the last one of the month takes its place.</remarks>
public static class BoundDates
{
    /// <summary>How far ahead a strip looks: our number, as its steps are.</summary>
    public const int DaysAhead = 90;

    /// <summary>Days after a reporting period's end by which its report is with the parents: our number, for the plan says when (34 CFR 300.320(a)(3)(ii)).</summary>
    public const int ReportDays = 14;

    public const int MostMonths = 60, LongestWords = 200, LongestNote = 1000, LongestReason = 400;

    /// <summary>A year without leap day.</summary>
    private const int YearOfMonths = 12;

    /// <summary>The furthest day that may be kept: a slip of the year lies beyond.</summary>
    private const int MostYearsAhead = 5;

    /// <summary>The kinds that people enter; of the others another part of the record knows the day.</summary>
    public static IReadOnlyList<BoundKind> Kept { get; } =
    [
        BoundKind.AnnualReview, BoundKind.Reevaluation, BoundKind.VisionEvaluation, BoundKind.MediaEvaluation, BoundKind.Orders, BoundKind.HealthPlan,
        BoundKind.Consent, BoundKind.Trial, BoundKind.Other,
    ];

    /// <summary>The case manager of the learner keeps them; the team reads them.</summary>
    public static bool MayKeep(Caller caller, int learner) => caller.IsStaff && caller.Manages(learner);

    /// <summary>Calendar days from today; negative where the day has passed.</summary>
    public static int DaysUntil(LocalDate due, LocalDate today) => Period.DaysBetween(today, due);

    public static Nearness Of(LocalDate due, LocalDate today) => DaysUntil(due, today) switch
    {
        < 0 => Nearness.Overdue,
        <= 30 => Nearness.Within30,
        <= 60 => Nearness.Within60,
        <= DaysAhead => Nearness.Within90,
        _ => Nearness.Later,
    };

    /// <summary>Whether it waits for whoever keeps it: the day has passed or comes within 30 days. A report waits once its period is over.</summary>
    public static bool Waits(BoundDate date, LocalDate today) =>
        Of(date.Due, today) is (Nearness.Overdue or Nearness.Within30) && (date.Kind != BoundKind.Report || date.Due.PlusDays(-ReportDays) < today);

    /// <summary>The last day of the annual review of a plan: the plan's last one, and never more than a year after its first.</summary>
    public static LocalDate AnnualReview(LocalDate start, LocalDate end) => LocalDate.Min(end, start.PlusYears(1));

    /// <summary>The day by which the parents have the report of a period.</summary>
    public static LocalDate ReportDue(LocalDate periodEnd) => periodEnd.PlusDays(ReportDays);

    /// <summary>When something comes round again after the day on which it was done.</summary>
    public static LocalDate Again(LocalDate done, int months) => done.PlusMonths(months);

    /// <summary>School days from today on and before the day; 0 where it has passed, null where the calendar does not reach that far.</summary>
    public static int? SchoolDaysBefore(SchoolCalendar calendar, LocalDate due, LocalDate today)
    {
        var school = calendar.For(LineTerms.Regular);
        if (due <= today)
            return 0;
        return school.LastTermDay < Day.Of(due) - 1 ? null : school.Instructional(DateRange.Of(today, due.PlusDays(-1)));
    }

    /// <summary>The last day that leaves so many school days before another one, itself among them.</summary>
    /// <remarks>Where fewer lie in the 60 days before, as in summer, ordinary weekdays are counted in their place.</remarks>
    public static LocalDate Before(SchoolCalendar calendar, LocalDate day, int schoolDays)
    {
        const int furthest = 60;
        var (school, last) = (calendar.For(LineTerms.Regular), Day.Of(day));
        var known = school.Instructional(new(last - furthest, last - 1)) >= schoolDays;
        var (left, at) = (schoolDays, last);
        while (left > 0 && at > last - furthest)
        {
            at--;
            left -= (known ? school.IsInstructional(at) : calendar.IsOrdinary(at)) ? 1 : 0;
        }
        return Day.Date(at);
    }

    /// <summary>What stands of a learner, by day: where people keep an earlier annual review than the plan's dates give, theirs stands alone.</summary>
    public static IReadOnlyList<BoundDate> Standing(IEnumerable<BoundDate> dates)
    {
        var all = dates.ToList();
        return [.. all.Where(d => d.IsKept || !all.Exists(k => k.IsKept && k.Learner == d.Learner && k.Kind == d.Kind && k.Due <= d.Due)).OrderBy(d => d.Due).ThenBy(d => d.Kind)];
    }

    /// <summary>All problems of a day that somebody enters.</summary>
    /// <param name="about">What it rests on: the paper, the law, the setting.</param>
    public static IEnumerable<Problem> Check(BoundKind? kind, LocalDate? due, string? about, LocalDate? from, int? repeatMonths, LocalDate today)
    {
        if (kind is not { } of || !Kept.Contains(of))
            yield return new("Kind", "Choose what has to happen.");
        if (due is not { } day || day > today.PlusYears(MostYearsAhead) || day < today.PlusYears(-MostYearsAhead))
            yield return new("DueOn", "Give the last day on which it is in time. Check the year.");
        if (string.IsNullOrWhiteSpace(about) || about.Trim().Length > LongestWords)
            yield return new("RestsOn", $"Say in under {LongestWords} letters what the day rests on.");
        if (kind == BoundKind.Trial && (from is not { } first || first > due))
            yield return new("FromDay", "A trial has a first day, on or before the day of the decision.");
        if (repeatMonths is < 1 or > MostMonths)
            yield return new("RepeatMonths", $"Give 1 to {MostMonths} months, or nothing.");
        if (MostBetween(kind) is { } most && (repeatMonths is not { } months || months > most))
            yield return new("RepeatMonths", $"It comes round at least every {(most == YearOfMonths ? "year" : "three years")}: give {most} months or less.");
    }

    /// <summary>All problems of a day's being done.</summary>
    public static IEnumerable<Problem> CheckDone(LocalDate? doneOn, string? word, LocalDate today)
    {
        if (doneOn is not { } day || day > today || day < today.PlusYears(-MostYearsAhead))
            yield return new("DoneOn", "Give the day on which it was done; it cannot be later than today.");
        if (word?.Trim().Length > LongestNote)
            yield return new("Word", $"Keep it under {LongestNote} letters.");
    }

    /// <summary>All problems of another day in place of one.</summary>
    public static IEnumerable<Problem> CheckMove(LocalDate? due, LocalDate before, string? reason, LocalDate today)
    {
        if (due is not { } day || day == before || day > today.PlusYears(MostYearsAhead) || day < today.PlusYears(-MostYearsAhead))
            yield return new("DueOn", "Give another day. Check the year.");
        foreach (var problem in CheckReason(reason))
            yield return problem;
    }

    public static IEnumerable<Problem> CheckReason(string? reason)
    {
        if (string.IsNullOrWhiteSpace(reason) || reason.Trim().Length > LongestReason)
            yield return new("Reason", $"Say why in under {LongestReason} letters.");
    }

    /// <summary>Months that may lie between two at most, where the law says so; null where the agency or a paper does.</summary>
    private static int? MostBetween(BoundKind? kind) => kind switch
    {
        BoundKind.AnnualReview => YearOfMonths,
        BoundKind.Reevaluation => 3 * YearOfMonths,
        _ => null,
    };
}
