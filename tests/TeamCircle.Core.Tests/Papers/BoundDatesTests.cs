using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Papers;

namespace TeamCircle.Core.Tests.Papers;

/// <summary>Days that bind, on examples worked by hand with a paper calendar.</summary>
public sealed class BoundDatesTests
{
    private static readonly LocalDate Today = new(2026, 10, 2);

    /// <summary>Monday to Friday from 17 August 2026 to 11 June 2027, closed from 23 to 27 November, and for a storm on 7 October.</summary>
    private static readonly SchoolCalendar Calendar = new(
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday],
        IsoDayOfWeek.Monday,
        [new Term(new(2026, 8, 17), new(2027, 6, 11), TermKind.Regular)],
        [.. Enumerable.Range(23, 5).Select(d => new SpecialDay(new(2026, 11, d), ClosureKind.Published)), new SpecialDay(new(2026, 10, 7), ClosureKind.Unscheduled)]);

    [Theory]
    [InlineData(-1, Nearness.Overdue)]
    [InlineData(0, Nearness.Within30)]
    [InlineData(30, Nearness.Within30)]
    [InlineData(31, Nearness.Within60)]
    [InlineData(60, Nearness.Within60)]
    [InlineData(61, Nearness.Within90)]
    [InlineData(90, Nearness.Within90)]
    [InlineData(91, Nearness.Later)]
    public void Nearness_counts_calendar_days_and_today_is_in_time(int days, Nearness expected) => Assert.Equal(expected, BoundDates.Of(Today.PlusDays(days), Today));

    // 2 October plus 30: October has 29 days left, so 1 November; the clocks go back that morning in Los Angeles, which changes no date.
    // 31 January plus 30: 28 days of February 2027 and two more.
    [Theory]
    [InlineData("2026-10-02", "2026-11-01", 30)]
    [InlineData("2027-01-31", "2027-03-02", 30)]
    [InlineData("2028-01-31", "2028-03-01", 30)]
    [InlineData("2027-03-14", "2027-03-15", 1)]
    public void Thirty_days_ahead_are_calendar_days_over_month_ends_and_changes_of_the_clock(string today, string due, int days) =>
        Assert.Equal(days, BoundDates.DaysUntil(Date(due), Date(today)));

    // 34 CFR 300.324(b)(1)(i): not less than annually. A plan from 29 February is reviewed by 28 February of the next year, not by 1 March.
    [Theory]
    [InlineData("2026-09-14", "2027-09-13", "2027-09-13")] // the plan's last day
    [InlineData("2026-09-14", "2027-10-15", "2027-09-14")] // a longer plan: a year after its first day
    [InlineData("2026-09-14", "2027-05-28", "2027-05-28")] // a shorter one: its last day
    [InlineData("2028-02-29", "2029-03-20", "2029-02-28")]
    [InlineData("2027-03-01", "2028-03-10", "2028-03-01")] // a leap day between does not shift it
    public void Annual_review_is_due_on_the_plans_last_day_and_never_after_a_year(string start, string end, string due) =>
        Assert.Equal(Date(due), BoundDates.AnnualReview(Date(start), Date(end)));

    [Theory]
    [InlineData("2025-11-20", 36, "2028-11-20")] // 34 CFR 300.303(b)(2): three years
    [InlineData("2028-02-29", 36, "2031-02-28")]
    [InlineData("2026-08-31", 6, "2027-02-28")]
    [InlineData("2027-08-31", 6, "2028-02-29")]
    [InlineData("2027-02-28", 12, "2028-02-28")] // the last of a month does not become the last of another
    public void What_comes_round_again_is_counted_from_the_day_it_was_done(string done, int months, string again) =>
        Assert.Equal(Date(again), BoundDates.Again(Date(done), months));

    // From Friday 2 October: that day, 5, 6, 8 and 9 October (the 7th was a storm) come before Monday the 12th.
    // From Friday 20 November only that day comes before Monday 30 November: the week between is closed.
    [Theory]
    [InlineData("2026-10-02", "2026-10-12", 5)]
    [InlineData("2026-11-20", "2026-11-30", 1)]
    [InlineData("2026-10-03", "2026-10-05", 0)]
    [InlineData("2026-10-12", "2026-10-12", 0)]
    [InlineData("2026-10-12", "2026-10-02", 0)]
    [InlineData("2027-06-10", "2027-06-12", 2)]
    [InlineData("2027-06-10", "2027-06-13", null)] // after the last day of school the calendar knows nothing
    public void School_days_before_a_day_are_counted_apart(string today, string due, int? left) =>
        Assert.Equal(left, BoundDates.SchoolDaysBefore(Calendar, Date(due), Date(today)));

    // Five school days before Wednesday 14 October: 13, 12, 9, 8 and, over the storm, 6 October.
    // Five before Wednesday 2 December: 1 December, 30 November, and over the closed week 20, 19 and 18 November.
    // In July no school day lies in the 60 days before, but for some of June: five of these are enough.
    // In September 2027 the calendar has ended: ordinary weekdays stand in their place.
    [Theory]
    [InlineData("2026-10-14", 5, "2026-10-06")]
    [InlineData("2026-12-02", 5, "2026-11-18")]
    [InlineData("2027-07-12", 5, "2027-06-07")]
    [InlineData("2027-09-15", 5, "2027-09-08")]
    public void School_days_are_counted_back_from_a_meeting(string meeting, int days, string expected) =>
        Assert.Equal(Date(expected), BoundDates.Before(Calendar, Date(meeting), days));

    [Fact]
    public void Earlier_review_that_people_keep_stands_in_place_of_the_plans_own()
    {
        BoundDate plan = new(7, BoundKind.AnnualReview, new(2027, 9, 13), null), report = new(7, BoundKind.Report, new(2026, 10, 30), "Period 1");
        BoundDate Kept(LocalDate due) => new(7, BoundKind.AnnualReview, due, "the meeting of last winter") { Id = 1 };

        Assert.Equal([report, plan], BoundDates.Standing([plan, report]));
        Assert.Equal([report, Kept(new(2027, 1, 20))], BoundDates.Standing([plan, report, Kept(new(2027, 1, 20))]));
        Assert.Equal([report, plan, Kept(new(2027, 10, 1))], BoundDates.Standing([plan, report, Kept(new(2027, 10, 1))]));
        Assert.Equal([report, Kept(new(2027, 1, 20)) with { Learner = 8 }, plan], BoundDates.Standing([plan, report, Kept(new(2027, 1, 20)) with { Learner = 8 }]));
    }

    [Fact]
    public void Report_waits_once_its_period_is_over()
    {
        var report = new BoundDate(7, BoundKind.Report, BoundDates.ReportDue(new(2026, 10, 16)), "Period 1");

        Assert.Equal(new LocalDate(2026, 10, 30), report.Due);
        Assert.False(BoundDates.Waits(report, new(2026, 10, 16)));
        Assert.True(BoundDates.Waits(report, new(2026, 10, 17)));
        Assert.True(BoundDates.Waits(report with { Kind = BoundKind.Consent }, new(2026, 10, 16)));
        Assert.False(BoundDates.Waits(report with { Kind = BoundKind.Consent }, new(2026, 9, 29)));
    }

    [Fact]
    public void What_the_law_repeats_comes_round_in_time_and_a_trial_has_a_first_day()
    {
        IEnumerable<string> Check(BoundKind kind, int? months, LocalDate? from = null) =>
            BoundDates.Check(kind, Today.PlusDays(20), "the report of the evaluation", from, months, Today).Select(p => p.Field);

        Assert.Empty(Check(BoundKind.Reevaluation, 36));
        Assert.Equal(["RepeatMonths"], Check(BoundKind.Reevaluation, 37));
        Assert.Equal(["RepeatMonths"], Check(BoundKind.AnnualReview, null));
        Assert.Empty(Check(BoundKind.Orders, null));
        Assert.Equal(["FromDay"], Check(BoundKind.Trial, null));
        Assert.Empty(Check(BoundKind.Trial, null, Today));
        Assert.Equal(["Kind"], Check(BoundKind.Report, null)); // reports know their own days
    }

    [Fact]
    public void Renewed_licence_binds_by_its_later_day()
    {
        Licence old = new(4, "State licence", new(2026, 11, 1)), renewed = new(4, "state licence", new(2028, 11, 1)), other = new(4, "Low vision", new(2027, 2, 1)), hers = new(5, "State licence", new(2026, 12, 1));

        Assert.Equal([renewed, other, hers], Licences.Latest([old, renewed, other, hers]));
        Assert.Equal(["Name", "UntilDay"], Licences.Check(" ", null, Today).Select(p => p.Field));
    }

    private static LocalDate Date(string text) => NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
}
