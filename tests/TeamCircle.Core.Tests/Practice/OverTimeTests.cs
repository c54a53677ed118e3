using NodaTime;
using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Tests.Practice;

public sealed class OverTimeTests
{
    private static readonly LocalDate Monday = new(2026, 9, 14), Tuesday = new(2026, 9, 15);

    private static PractisedConditions At(LocalDate day, Conditions conditions, int answers = 0, int unasked = 0) => new(day, conditions, answers, unasked);

    private static Conditions Chair(string? from, string? to) => new() { Position = "In her chair.", TimeIn = from, TimeOut = to };

    [Fact]
    public void Time_in_a_position_is_what_the_practices_of_a_day_cover_together()
    {
        var days = OverTime.Positions([
            At(Monday, Chair("09:00", "09:20")), At(Monday, Chair("09:15", "09:30")), At(Monday, Chair("09:16", "09:18")), At(Monday, Chair("13:00", "13:05")),
            At(Tuesday, Chair("10:00", "10:10")), At(Monday, Chair("08:00", "08:30") with { Equipment = "Wedge" })]);

        Assert.Equal([(Tuesday, "In her chair", 10), (Monday, "In her chair", 35), (Monday, "In her chair; Wedge", 30)], days.Select(d => (d.Day, d.Position!, d.Minutes!.Value)));
    }

    [Theory]
    [InlineData("09:00", null)]
    [InlineData(null, "09:00")]
    [InlineData("09:20", "09:20")]
    [InlineData("09:20", "09:00")]
    [InlineData("nine", "09:20")]
    [InlineData("25:00", "26:00")]
    public void Without_both_times_in_order_there_are_no_minutes_and_the_row_stays(string? from, string? to) =>
        Assert.Null(Assert.Single(OverTime.Positions([At(Monday, Chair(from, to) with { Skin = "clear" })])).Minutes);

    [Fact]
    public void What_was_said_stands_once_and_a_position_that_only_the_card_has_is_no_row()
    {
        var days = OverTime.Positions([
            At(Monday, new() { Position = "On the mat", Tolerance = "Well, 20 minutes.", Skin = "clear" }), At(Monday, new() { Position = "On the mat", Tolerance = "Well, 20 minutes", Skin = "red at the hip", Tilt = "15 degrees" }),
            At(Tuesday, new() { Position = "On the mat" })]);

        var day = Assert.Single(days);
        Assert.Equal(["Well, 20 minutes"], day.Tolerance);
        Assert.Equal(["clear", "red at the hip"], day.Skin);
        Assert.Equal(["15 degrees"], day.Tilt);
    }

    [Fact]
    public void Hits_are_what_adults_counted_or_else_closures_that_answered_and_nothing_counted_is_not_zero()
    {
        Conditions Elbow(int? hits, int? misses) => new() { Switch = "Round switch", SwitchSite = "elbow", SwitchSide = "right", Hits = hits, Misses = misses };

        var days = OverTime.Switches([
            At(Monday, Elbow(4, 2), answers: 9), At(Monday, Elbow(null, 1), answers: 3), At(Monday, new() { Switch = "Flat switch" }, unasked: 2),
            At(Tuesday, Elbow(0, null)), At(Tuesday, new() { Switch = "Flat switch" })]);

        Assert.Equal(
            [new(Tuesday, "Round switch; elbow; right", 0, null, 0), new(Monday, "Flat switch", null, null, 2), new SwitchDay(Monday, "Round switch; elbow; right", 7, 3, 0)], days);
        Assert.Equal([null, null, new CountOf(7, 10)], days.Select(d => d.Share));
    }
}
