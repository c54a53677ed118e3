using NodaTime;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Core.Tests.Calendar;

public sealed class NamedRangesTests
{
    private static NamedRange Row(int row, string? name, LocalDate? first, LocalDate? last, int lane = 0) => new($"Rows[{row}]", name, first, last, lane);

    private static LocalDate Day(int month, int day) => new(2026, month, day);

    [Fact]
    public void Rows_in_order_without_shared_days_can_be_stored() =>
        Assert.Empty(NamedRanges.Check([Row(0, "Period 2", Day(10, 19), Day(12, 18)), Row(1, "Period 1", Day(8, 17), Day(10, 16))]));

    [Fact]
    public void Everything_that_is_missing_is_named_at_once() =>
        Assert.Equal(
            ["Rows[0].Name", "Rows[0].FirstDay", "Rows[0].LastDay", "Rows[1].LastDay"],
            NamedRanges.Check([Row(0, " ", null, null), Row(1, "Fall", Day(8, 17), Day(8, 16))]).Select(p => p.Field));

    [Fact]
    public void A_name_is_taken_once_whatever_its_case() =>
        Assert.Equal("Rows[1].Name", Assert.Single(NamedRanges.Check([Row(0, "Fall", Day(8, 17), Day(8, 20)), Row(1, " fall ", Day(9, 1), Day(9, 2))])).Field);

    [Fact]
    public void Sharing_one_day_is_an_overlap_and_names_the_other_row()
    {
        var problem = Assert.Single(NamedRanges.Check([Row(0, "Period 1", Day(8, 17), Day(10, 16)), Row(1, "Period 2", Day(10, 16), Day(12, 18))]));

        Assert.Equal("Rows[1].FirstDay", problem.Field);
        Assert.Contains("Period 1", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Regular_and_extended_terms_may_share_days() =>
        Assert.Empty(NamedRanges.Check([Row(0, "Spring", Day(1, 5), Day(6, 12), lane: 0), Row(1, "Extended", Day(6, 8), Day(7, 3), lane: 1)]));

    [Theory]
    [InlineData(399, 0)]
    [InlineData(400, 1)]
    public void A_slip_of_the_year_is_caught(int daysLater, int problems) =>
        Assert.Equal(problems, NamedRanges.Check([Row(0, "Fall", Day(8, 17), Day(8, 17).PlusDays(daysLater))]).Count());
}
