using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Commitments;

/// <summary>Days without service, counted by hand on the calendar of autumn 2026: school on weekdays from 17 August, Labor Day on Monday
/// 7 September, a staff day on Monday 12 October, and a storm that closes Thursday 15 October without notice.</summary>
public sealed class VacancyTests
{
    private static readonly SchoolDays School = new SchoolCalendar(
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday], IsoDayOfWeek.Monday,
        [new Term(new(2026, 8, 17), new(2027, 5, 28), TermKind.Regular)],
        [
            new SpecialDay(new(2026, 9, 7), ClosureKind.Published), new SpecialDay(new(2026, 10, 12), ClosureKind.Published),
            new SpecialDay(new(2026, 10, 15), ClosureKind.Unscheduled),
        ]).For(LineTerms.Regular);

    private static readonly DateRange Service = Days(8, 17, 12, 18);

    // 8 to 18 October are 11 days. Of them 8, 9, 13, 14, 15 and 16 are school days: the 12th is closed by the calendar, the storm of the 15th lowers nothing.
    [Fact]
    public void Days_run_from_the_day_after_the_last_one_named_to_the_day_before_the_first_visit()
    {
        var vacancy = Assert.Single(Vacancy.Of(Service, [Days(8, 17, 10, 7), Days(10, 14, 12, 18)], [On(10, 5), On(10, 19), On(10, 26)], On(11, 2)));

        Assert.Equal((Days(10, 8, 10, 13), On(10, 19)), (vacancy.Unnamed, vacancy.FirstGiven));
        Assert.Equal((11, 6), (vacancy.CalendarDays, vacancy.SchoolDays(School)));
    }

    // From 17 August to 11 September: 26 days; 20 weekdays less Labor Day.
    [Fact]
    public void Service_that_nobody_was_named_for_from_the_beginning_counts_up_to_today()
    {
        var vacancy = Assert.Single(Vacancy.Of(Service, [], [], On(9, 11)));

        Assert.False(vacancy.IsServed);
        Assert.Equal((26, 19), (vacancy.CalendarDays, vacancy.SchoolDays(School)));
    }

    [Fact]
    public void Visit_of_somebody_who_is_not_named_ends_the_days_without_service_but_nobody_is_named_all_the_same()
    {
        var vacancy = Assert.Single(Vacancy.Of(Service, [Days(8, 17, 9, 30)], [On(10, 1)], On(10, 30)));

        Assert.Equal((0, 0, true), (vacancy.CalendarDays, vacancy.SchoolDays(School), vacancy.IsServed));
        Assert.Equal(Days(10, 1, 12, 18), vacancy.Unnamed);
    }

    [Fact]
    public void Two_people_one_after_the_other_without_a_gap_leave_no_vacancy_and_neither_does_what_lies_ahead()
    {
        Assert.Empty(Vacancy.Of(Service, [Days(10, 8, 12, 18), Days(8, 17, 10, 7)], [], On(12, 18)));
        Assert.Empty(Vacancy.Of(Service, [Days(8, 17, 10, 7)], [], On(10, 7)));
        Assert.Equal(1, Assert.Single(Vacancy.Of(Service, [Days(8, 17, 10, 7)], [], On(10, 8))).CalendarDays);
    }

    [Fact]
    public void Days_without_service_end_with_the_service()
    {
        var vacancies = Vacancy.Of(Days(8, 17, 10, 16), [Days(8, 19, 8, 21)], [], On(11, 30));

        Assert.Equal([Days(8, 17, 8, 18), Days(8, 22, 10, 16)], vacancies.Select(v => v.Unnamed));
        Assert.Equal(On(10, 16), vacancies[1].Without.Last);
    }

    private static int On(int month, int day) => Day.Of(new(2026, month, day));

    private static DateRange Days(int fromMonth, int from, int toMonth, int to) => new(On(fromMonth, from), On(toMonth, to));
}
