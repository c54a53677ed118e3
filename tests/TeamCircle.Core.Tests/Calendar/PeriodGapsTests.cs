using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Calendar;

public sealed class PeriodGapsTests
{
    private static readonly IsoDayOfWeek[] MondayToFriday =
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday];

    private static SchoolCalendar Calendar(params SpecialDay[] special) =>
        new(MondayToFriday, IsoDayOfWeek.Monday, [new(new(2026, 8, 17), new(2027, 5, 28), TermKind.Regular)], special);

    private static DateRange Range(int month, int day, int toMonth, int toDay) => DateRange.Of(new(2026, month, day), new(2026, toMonth, toDay));

    [Fact]
    public void A_weekend_between_two_periods_is_no_gap() =>
        Assert.Empty(PeriodGaps.Find(Calendar(), [Range(10, 19, 12, 18), Range(8, 17, 10, 16)]));

    [Fact]
    public void School_days_between_two_periods_are_pointed_out_with_their_number() =>
        Assert.Equal(
            new PeriodGap(new(2026, 10, 17), new(2026, 10, 20), 2),
            Assert.Single(PeriodGaps.Find(Calendar(), [Range(8, 17, 10, 16), Range(10, 21, 12, 18)])));

    [Fact]
    public void A_gap_of_published_closures_only_is_none() =>
        Assert.Empty(PeriodGaps.Find(
            Calendar(new(new(2026, 10, 19), ClosureKind.Published), new(new(2026, 10, 20), ClosureKind.Published)),
            [Range(8, 17, 10, 16), Range(10, 21, 12, 18)]));

    [Fact]
    public void A_gap_of_snow_days_stays_one() =>
        Assert.Single(PeriodGaps.Find(Calendar(new SpecialDay(new(2026, 10, 19), ClosureKind.Unscheduled)), [Range(8, 17, 10, 18), Range(10, 20, 12, 18)]));
}
