using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Tests.Ui;

/// <summary>The rail shows what the figures say, and its words say what the rail shows.</summary>
public sealed partial class MinuteRailTests
{
    private static readonly LocalDate Monday = new(2026, 9, 14);

    [GeneratedRegex("class=\"full\" d=\"M([0-9.]+) 4H([0-9.]+)")]
    private static partial Regex Filled();

    private static Rail Week(int owed, int given, int notOwed = 0, int paid = 0, int planned = 0, int today = 3) => new(
        Monday, Monday.PlusDays(6), Monday.PlusDays(today), "minutes",
        [new RailCell("week of 14 September", Monday, Monday.PlusDays(6), owed, notOwed, given, paid, planned)]);

    private static double Share(Rail rail)
    {
        var found = Filled().Match(MinuteRailTagHelper.Draw(rail));
        double At(int group) => double.Parse(found.Groups[group].Value, CultureInfo.InvariantCulture);
        return found.Success ? (At(2) - At(1)) / 261 : 0;
    }

    [Theory]
    [InlineData(60, 0, 0)]
    [InlineData(60, 15, 0.25)]
    [InlineData(60, 60, 1)]
    [InlineData(60, 90, 1)]
    public void Cell_is_filled_from_the_left_by_what_was_given(int owed, int given, double share) =>
        Assert.Equal(share, Share(Week(owed, given)), precision: 2);

    [Fact]
    public void Cell_stays_open_where_something_lacks_and_closes_where_nothing_does()
    {
        Assert.DoesNotContain("z\"/>", Cell(Week(60, 30)), StringComparison.Ordinal);
        Assert.Contains("z\"/>", Cell(Week(60, 60)), StringComparison.Ordinal);
        Assert.Contains("z\"/>", Cell(Week(60, 30, notOwed: 30)), StringComparison.Ordinal);
    }

    [Fact]
    public void Decided_not_owed_is_hatched_a_make_up_ticked_a_plan_dotted()
    {
        Assert.Contains("class=\"hatch\"", MinuteRailTagHelper.Draw(Week(60, 30, notOwed: 30)), StringComparison.Ordinal);
        Assert.Contains("class=\"tick\"", MinuteRailTagHelper.Draw(Week(60, 60, paid: 30)), StringComparison.Ordinal);
        Assert.Contains("class=\"dot\"", MinuteRailTagHelper.Draw(Week(60, 30, planned: 30)), StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"dot\"", MinuteRailTagHelper.Draw(Week(60, 30, planned: 29)), StringComparison.Ordinal);
    }

    [Fact]
    public void Today_is_a_hairline_only_where_it_lies_on_the_axis()
    {
        Assert.Contains("class=\"today\"", MinuteRailTagHelper.Draw(Week(60, 60)), StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"today\"", MinuteRailTagHelper.Draw(Week(60, 60, today: 9)), StringComparison.Ordinal);
    }

    [Fact]
    public void Words_name_what_is_not_as_it_should_be_and_count_the_rest()
    {
        RailCell Cell(int week, int given, int notOwed = 0, int paid = 0, int planned = 0) =>
            new($"week of {Say.Day(Monday.PlusWeeks(week))}", Monday.PlusWeeks(week), Monday.PlusWeeks(week).PlusDays(6), 60, notOwed, given, paid, planned);
        var rail = new Rail(Monday, Monday.PlusWeeks(6), Monday.PlusWeeks(4), "minutes",
            [Cell(0, 60), Cell(1, 60), Cell(2, 30), Cell(3, 30, notOwed: 30), Cell(4, 0, planned: 60), Cell(5, 0, planned: 60)]);

        Assert.Equal(
            "2 of 6 windows given in full. Week of 28 September: 30 of 60 minutes given. "
            + "Week of 5 October: 30 of 60 minutes given, 30 decided not owed. "
            + "Week of 12 October: 0 of 60 minutes given so far, the rest is planned. 1 to come, all planned.",
            RailWords.Of(rail));
    }

    private static string Cell(Rail rail) => MinuteRailTagHelper.Draw(rail).Split("class=\"cell\"")[1];
}
