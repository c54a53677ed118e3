using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Commitments;

public sealed class WindowCatalogTests
{
    private static readonly DateRange Line = DateRange.Of(new(2026, 9, 10), new(2027, 1, 20));

    [Fact]
    public void Fortnights_are_counted_from_the_week_that_holds_the_first_day()
    {
        var windows = WindowsOf(new(EveryUnit.Week, 2));

        Assert.Equal(DateRange.Of(new(2026, 9, 7), new(2026, 9, 20)), windows.All[0].Days);
        Assert.Equal(DateRange.Of(new(2027, 1, 11), new(2027, 1, 24)), windows.All[^1].Days);
    }

    [Fact]
    public void Quarters_are_counted_from_the_month_that_holds_the_first_day()
    {
        var windows = WindowsOf(new(EveryUnit.Month, 3));

        Assert.Equal(
            [DateRange.Of(new(2026, 9, 1), new(2026, 11, 30)), DateRange.Of(new(2026, 12, 1), new(2027, 2, 28))],
            windows.All.ToArray().Select(w => w.Days));
    }

    [Fact]
    public void Periods_that_do_not_touch_the_line_are_no_windows()
    {
        var windows = WindowsOf(new(EveryUnit.Period, 1));

        Assert.Equal(DateRange.Of(new(2026, 8, 17), new(2026, 10, 16)), Assert.Single(windows.All.ToArray()).Days);
    }

    [Fact]
    public void Lines_of_one_shape_share_their_windows()
    {
        var catalog = Catalog();
        Promise Weekly(int minutes) => new(new(EveryUnit.Week, 1), Line, new PromiseVersion(Line.First, minutes));

        Assert.Same(catalog.Of(Weekly(30), Line), catalog.Of(Weekly(60), default));
    }

    [Fact]
    public void Window_that_closes_between_two_periods_is_listed_to_check()
    {
        var windows = WindowsOf(new(EveryUnit.Month, 1));

        // September lies in the period; October and November close after it, December and January have no period yet
        Assert.Equal([1, 2, 3, 4], windows.ClosingInNoPeriod);
    }

    [Fact]
    public void Every_day_is_found_in_the_window_that_holds_it()
    {
        foreach (var every in new Every[] { new(EveryUnit.Week, 1), new(EveryUnit.Week, 3), new(EveryUnit.Month, 1), new(EveryUnit.Period, 1) })
        {
            var windows = WindowsOf(every);
            for (var day = Line.First - 60; day < Line.Last + 120; day++)
            {
                var expected = windows.All.ToArray().ToList().FindIndex(w => w.IsActive && w.Days.Holds(day));
                Assert.Equal(expected, windows.Find(day));
            }
        }
    }

    [Fact]
    public void Overlapping_periods_are_refused() => Assert.Throws<ArgumentException>(() =>
        new WindowCatalog(new ALine().Calendar, [new DateRange(10, 20), new DateRange(20, 30)]));

    [Fact]
    public void Break_of_thirty_days_between_terms_is_closure_and_of_thirty_one_is_outside()
    {
        int Outside(int days)
        {
            var second = new LocalDate(2026, 12, 18).PlusDays(days + 1);
            var calendar = new SchoolCalendar(Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None), IsoDayOfWeek.Monday,
                [new(new(2026, 8, 17), new(2026, 12, 18), TermKind.Regular), new(second, new(2027, 5, 28), TermKind.Regular)], []);
            return calendar.For(LineTerms.Regular).OrdinaryOutside(DateRange.Of(new(2026, 12, 1), new(2027, 1, 31)));
        }

        Assert.Equal(0, Outside(30));
        Assert.Equal(31, Outside(31));
    }

    private static WindowCatalog Catalog() => new(new ALine().Calendar, [ALine.FirstPeriod]);

    private static PromiseWindows WindowsOf(Every every) => Catalog().Of(new(every, Line, new PromiseVersion(Line.First, 60)), Line);
}
