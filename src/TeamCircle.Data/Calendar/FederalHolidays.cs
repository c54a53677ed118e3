using PublicHoliday;

namespace TeamCircle.Data.Calendar;

/// <summary>A holiday of the United States on the weekday on which it is kept.</summary>
public sealed record FederalHoliday(LocalDate OnDay, string Name);

/// <summary>The legal public holidays of 5 U.S.C. 6103(a), under their names there. Inauguration Day, of (c), is a matter of one region.</summary>
/// <remarks>One on a Saturday is kept on the Friday before (5 U.S.C. 6103(b)), one on a Sunday on the Monday after
/// (Executive Order 11582), so that New Year's Day may be kept on 31 December.</remarks>
public static class FederalHolidays
{
    private static readonly (string Name, int FirstYear, Func<int, Holiday> Of)[] All =
    [
        ("New Year's Day", 1, USAPublicHoliday.NewYear),
        ("Birthday of Martin Luther King, Jr.", 1986, USAPublicHoliday.MartinLutherKing),
        ("Washington's Birthday", 1, USAPublicHoliday.PresidentsDay),
        ("Memorial Day", 1, USAPublicHoliday.MemorialDay),
        ("Juneteenth National Independence Day", 2021, USAPublicHoliday.Juneteenth),
        ("Independence Day", 1, USAPublicHoliday.IndependenceDay),
        ("Labor Day", 1, USAPublicHoliday.LaborDay),
        ("Columbus Day", 1, USAPublicHoliday.ColumbusDay),
        ("Veterans Day", 1, USAPublicHoliday.VeteransDay),
        ("Thanksgiving Day", 1, USAPublicHoliday.Thanksgiving),
        ("Christmas Day", 1, USAPublicHoliday.Christmas),
    ];

    /// <summary>Those kept between two days, oldest first; both ends belong to the range.</summary>
    public static IReadOnlyList<FederalHoliday> Between(LocalDate first, LocalDate last) =>
    [
        .. Enumerable.Range(first.Year, last.Year - first.Year + 2)
            .SelectMany(year => All.Where(h => year >= h.FirstYear).Select(h => new FederalHoliday(LocalDate.FromDateTime(h.Of(year).ObservedDate), h.Name)))
            .Where(h => first <= h.OnDay && h.OnDay <= last)
            .OrderBy(h => h.OnDay),
    ];
}
