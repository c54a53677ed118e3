using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Things;

namespace TeamCircle.Core.Tests.Things;

/// <summary>What became of a thing, and how many days it took. Counted by hand on a calendar of autumn 2026: 5, 12 and 19 October are Mondays.</summary>
public sealed class ThingStoryTests
{
    private static readonly LocalDate Broke = new(2026, 10, 5), Works = new(2026, 10, 19);

    private static readonly SchoolCalendar Calendar = new(
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday], IsoDayOfWeek.Monday,
        [new Term(new(2026, 8, 17), new(2027, 5, 28), TermKind.Regular)],
        [new SpecialDay(new(2026, 10, 12), ClosureKind.Published), new SpecialDay(new(2026, 10, 14), ClosureKind.Unscheduled)]);

    private static ThingStory Story(params (ThingAct Act, LocalDate On)[] entries) =>
        ThingStory.Of(entries.Select((e, i) => new ThingDay(i, e.On, e.Act, "the cable", "use the flat one", e.Act is ThingAct.InPlace ? ThingPlace.Home : null)));

    [Fact]
    public void Outage_lasts_from_the_day_it_broke_to_the_day_before_it_worked_again()
    {
        var story = Story((ThingAct.InPlace, new(2026, 9, 15)), (ThingAct.Broken, Broke), (ThingAct.Works, Works));

        var outage = Assert.Single(story.Outages);
        Assert.Equal((Broke, new LocalDate(2026, 10, 18)), (outage.From, outage.Until));
        // 5 to 18 October: 14 days; ten weekdays, less the published closure of the 12th and the storm of the 14th.
        Assert.Equal(new DayCount(14, 8), ThingDays.OutOfOrder(outage, new(2026, 11, 2), Calendar));
        Assert.Equal((ThingState.InPlace, ThingPlace.Home, null), (story.State, story.Where, story.Out));
    }

    [Fact]
    public void Outage_that_lasts_counts_today_and_one_that_was_mended_on_its_day_counts_one()
    {
        var goes = Story((ThingAct.InPlace, new(2026, 9, 15)), (ThingAct.Broken, Broke));
        var mended = Story((ThingAct.InPlace, new(2026, 9, 15)), (ThingAct.Broken, Broke), (ThingAct.Works, Broke));

        Assert.Equal(new DayCount(3, 3), ThingDays.OutOfOrder(goes.Out!, Broke.PlusDays(2), Calendar));
        Assert.Equal(new DayCount(1, 1), ThingDays.OutOfOrder(mended.Outages[0], Works, Calendar));
    }

    [Fact]
    public void Wait_begins_on_the_day_after_the_promise_and_ends_on_the_day_it_is_there()
    {
        LocalDate promised = new(2026, 9, 1);

        // 2 to 15 September: 14 days, ten of them weekdays.
        Assert.Equal(new DayCount(14, 10), ThingDays.Waited(promised, new(2026, 9, 15), Works, Calendar));
        Assert.Equal(new DayCount(1, 1), ThingDays.Waited(promised, promised.PlusDays(1), Works, Calendar));
        Assert.Equal(new DayCount(3, 3), ThingDays.Waited(promised, null, new(2026, 9, 4), Calendar));
        Assert.Equal(new DayCount(0, 0), ThingDays.Waited(promised, new(2026, 8, 20), Works, Calendar));
    }

    [Fact]
    public void Each_act_opens_what_can_follow_it()
    {
        Assert.Equal([ThingAct.InPlace, ThingAct.LoanerHere], Story().Next);
        Assert.Equal([ThingAct.Works, ThingAct.LoanerHere, ThingAct.Moved, ThingAct.Returned], Story((ThingAct.InPlace, Broke), (ThingAct.Broken, Broke)).Next);

        var lent = Story((ThingAct.InPlace, Broke), (ThingAct.Broken, Broke), (ThingAct.LoanerHere, Broke), (ThingAct.Works, Works), (ThingAct.LoanerBack, Works));
        Assert.Equal((Broke, Works), (lent.Loaners[0].From, lent.Loaners[0].Until));
        Assert.Null(lent.Loaner);

        var back = Story((ThingAct.InPlace, Broke), (ThingAct.Broken, Broke), (ThingAct.Returned, Works));
        Assert.Equal((ThingState.Returned, Works, Works.PlusDays(-1)), (back.State, back.ReturnedOn, back.Outages[0].Until));
    }

    [Fact]
    public void Entry_that_does_not_follow_is_passed_over()
    {
        var story = Story((ThingAct.Works, Broke), (ThingAct.InPlace, Works));

        Assert.Equal((ThingState.InPlace, Works), (story.State, story.InPlaceSince));
        Assert.Empty(story.Outages);
    }

    [Fact]
    public void What_is_noted_follows_what_stands_and_is_never_later_than_today()
    {
        var story = Story((ThingAct.InPlace, Broke));
        string[] Wrong(ThingAct? act, LocalDate? on, string? words = null, ThingPlace? where = null) =>
            [.. ThingRules.CheckNext(story, ThingKind.Device, act, on, words, null, where, Works).Select(p => p.Field)];

        Assert.Empty(Wrong(ThingAct.Broken, Broke, "the cable"));
        Assert.Equal(["Words"], Wrong(ThingAct.Broken, Broke));
        Assert.Equal(["Act"], Wrong(ThingAct.Works, Works));
        Assert.Equal(["OnDay"], Wrong(ThingAct.Broken, Works.PlusDays(1), "the cable"));
        Assert.Equal(["OnDay"], Wrong(ThingAct.Broken, Broke.PlusDays(-1), "the cable"));
        Assert.Equal(["Where"], Wrong(ThingAct.Moved, Works));
        Assert.Empty(ThingRules.Next(Story((ThingAct.InPlace, Broke)), ThingKind.Training));
    }
}
