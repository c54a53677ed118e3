using NodaTime;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>The library's dates against the rule that the statute states, worked out here by counting days.</summary>
public sealed class FederalHolidaysTests
{
    // 5 U.S.C. 6103(a), in its order: month, and either a day or "the nth weekday" (5 = the last).
    private static readonly (string Name, int Month, int? Day, IsoDayOfWeek Weekday, int Nth, int Since)[] Statute =
    [
        ("New Year's Day", 1, 1, 0, 0, 0), // January 1
        ("Birthday of Martin Luther King, Jr.", 1, null, IsoDayOfWeek.Monday, 3, 1986), // the third Monday in January
        ("Washington's Birthday", 2, null, IsoDayOfWeek.Monday, 3, 0), // the third Monday in February
        ("Memorial Day", 5, null, IsoDayOfWeek.Monday, 5, 0), // the last Monday in May
        ("Juneteenth National Independence Day", 6, 19, 0, 0, 2021), // June 19
        ("Independence Day", 7, 4, 0, 0, 0), // July 4
        ("Labor Day", 9, null, IsoDayOfWeek.Monday, 1, 0), // the first Monday in September
        ("Columbus Day", 10, null, IsoDayOfWeek.Monday, 2, 0), // the second Monday in October
        ("Veterans Day", 11, 11, 0, 0, 0), // November 11
        ("Thanksgiving Day", 11, null, IsoDayOfWeek.Thursday, 4, 0), // the fourth Thursday in November
        ("Christmas Day", 12, 25, 0, 0, 0), // December 25
    ];

    [Fact]
    public void Library_keeps_the_days_of_the_statute_from_2000_to_2060()
    {
        var (first, last) = (new LocalDate(2000, 1, 1), new LocalDate(2060, 12, 31));
        var expected = Enumerable.Range(2000, 62).SelectMany(InYear).Where(h => h.OnDay >= first && h.OnDay <= last)
            .OrderBy(h => h.OnDay).ThenBy(h => h.Name);

        Assert.Equal(expected, FederalHolidays.Between(first, last).OrderBy(h => h.OnDay).ThenBy(h => h.Name));
    }

    [Fact]
    public void New_Years_Day_on_a_Saturday_is_kept_on_the_Friday_before() =>
        Assert.Equal(new FederalHoliday(new(2027, 12, 31), "New Year's Day"), Assert.Single(FederalHolidays.Between(new(2027, 12, 26), new(2028, 1, 10))));

    [Fact]
    public void A_Sunday_is_kept_on_the_Monday_after() =>
        Assert.Equal(new LocalDate(2027, 7, 5), Assert.Single(FederalHolidays.Between(new(2027, 7, 1), new(2027, 7, 31))).OnDay);

    private static IEnumerable<FederalHoliday> InYear(int year) =>
        Statute.Where(h => year >= h.Since).Select(h => new FederalHoliday(Kept(h.Day is { } day ? new(year, h.Month, day) : Nth(year, h.Month, h.Weekday, h.Nth)), h.Name));

    private static LocalDate Nth(int year, int month, IsoDayOfWeek weekday, int nth)
    {
        var days = Enumerable.Range(1, CalendarSystem.Iso.GetDaysInMonth(year, month)).Select(d => new LocalDate(year, month, d)).Where(d => d.DayOfWeek == weekday).ToList();
        return nth == 5 ? days[^1] : days[nth - 1];
    }

    // 6103(b)(1): "Instead of a holiday that occurs on a Saturday, the Friday immediately before"; Executive Order 11582: the Monday after a Sunday.
    private static LocalDate Kept(LocalDate day) => day.DayOfWeek switch
    {
        IsoDayOfWeek.Saturday => day.PlusDays(-1),
        IsoDayOfWeek.Sunday => day.PlusDays(1),
        _ => day,
    };
}
