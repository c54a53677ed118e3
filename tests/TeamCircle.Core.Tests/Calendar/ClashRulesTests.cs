using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Calendar;

public sealed class ClashRulesTests
{
    private static readonly LocalDate Tuesday = new(2026, 10, 6);
    private static readonly PlannedTime Visit = new(Tuesday, new(9, 30), 45, "H1", IsLearnersTime: true, IsMakeUp: false);
    private static readonly DayFacts Free = new() { Provider = "Bram Nakamura", Service = DateRange.Of(new(2026, 8, 17), new(2027, 5, 28)), MostMinutes = 120 };

    private static TakenTime Taken(string start, string end, string? place = null, bool share = false, bool learners = true) =>
        new(Time(start), Time(end), place, "Odalys Ferreira", share, learners);

    private static LocalTime Time(string text) => NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("H:mm").Parse(text).Value;

    private static string Said(DayFacts day, PlannedTime? visit = null) =>
        string.Join(" / ", ClashRules.Find(visit ?? Visit, day).Select(c => $"{(c.IsRefused ? "no" : "ask")}: {c.Words}"));

    [Fact]
    public void Free_day_has_no_clash() => Assert.Empty(Said(Free));

    [Theory]
    [InlineData("8:45", "9:30", "")]
    [InlineData("10:15", "11:00", "")]
    [InlineData("9:00", "9:45", "no: Bram Nakamura is taken from 9:00 to 9:45 am.")]
    [InlineData("10:00", "12:30", "no: Bram Nakamura is taken from 10:00 am to 12:30 pm.")]
    public void Person_is_in_one_place_at_a_time_and_visits_may_touch(string start, string end, string said) =>
        Assert.Equal(said, Said(Free with { OfProvider = [Taken(start, end)] }));

    [Fact]
    public void Group_session_shares_the_person() => Assert.Empty(Said(Free with { OfProvider = [Taken("9:30", "10:15", share: true)] }));

    [Fact]
    public void Learners_own_time_goes_to_one_visit_but_for_co_treatment()
    {
        Assert.Equal("no: The learner has a visit with Odalys Ferreira from 10:00 to 10:30 am.", Said(Free with { OfLearner = [Taken("10:00", "10:30")] }));
        Assert.Empty(Said(Free with { OfLearner = [Taken("10:00", "10:30", share: true)] }));
        Assert.Empty(Said(Free with { OfLearner = [Taken("10:00", "10:30")] }, Visit with { IsLearnersTime = false }));
    }

    [Theory]
    [InlineData("9:10", "no: Bram Nakamura needs 25 minutes from S4 to here and has 20.")]
    [InlineData("9:05", "")]
    public void Way_from_the_visit_before_fits_the_gap(string end, string said) =>
        Assert.Equal(said, Said(Free with { OfProvider = [Taken("8:00", end, "S4")], Travel = (from, to) => (from, to) == ("S4", "H1") ? 25 : 0 }));

    [Fact]
    public void Way_to_the_next_visit_counts_in_its_own_direction() =>
        Assert.Equal("no: Bram Nakamura needs 40 minutes from here to S4 and has 30.",
            Said(Free with { OfProvider = [Taken("10:45", "11:30", "S4")], Travel = (from, to) => (from, to) == ("H1", "S4") ? 40 : 5 }));

    [Fact]
    public void Way_of_unknown_length_refuses_nothing() =>
        Assert.Empty(Said(Free with { OfProvider = [Taken("8:00", "9:30", "S4")], Travel = (_, _) => null }));

    [Fact]
    public void Away_and_outside_the_service_refuse_and_a_make_up_may_lie_outside()
    {
        var late = Visit with { On = new(2027, 6, 1) };

        Assert.Equal("no: The learner is away until 9 October.", Said(Free with { AwayUntil = "until 9 October" }));
        Assert.Equal("no: The day lies outside the dates of the service.", Said(Free, late));
        Assert.Empty(Said(Free, late with { IsMakeUp = true }));
    }

    [Fact]
    public void Closed_day_and_a_full_day_are_for_a_person_to_confirm()
    {
        Assert.Equal("ask: There is no school that day: Staff day.", Said(Free with { IsSchoolDay = false, ClosedBy = "Staff day" }));
        Assert.Equal("ask: The learner would have 130 minutes that day, more than the 120 that the team set as the most.",
            Said(Free with { OfLearner = [Taken("13:00", "14:25")] }));
        Assert.Empty(Said(Free with { OfLearner = [Taken("13:00", "14:25", learners: false)] }));
    }

    [Fact]
    public void Everything_is_said_at_once()
    {
        var clashes = ClashRules.Find(Visit, Free with { OfProvider = [Taken("9:00", "9:45")], OfLearner = [Taken("9:00", "9:45")], IsSchoolDay = false });

        Assert.Equal([ClashKind.PersonTwice, ClashKind.LearnerTwice, ClashKind.ClosedDay], clashes.Select(c => c.Kind));
    }
}
