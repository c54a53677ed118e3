using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>What the text of a cell means. Nothing in a cell is ever run: it is text until shown otherwise.</summary>
public static partial class CellText
{
    private const int FirstYear = 1900;
    private const int LastYear = 2199;

    /// <summary>A date: ISO, or month/day/year with the month first and four digits for the year.</summary>
    /// <returns>The day, whether its first two numbers could be meant the other way round, and why it is none.</returns>
    public static (LocalDate? Day, bool Ambiguous, string? Problem) Date(string text)
    {
        if (IsoDate().IsMatch(text))
            return Plausible(LocalDatePattern.Iso.Parse(text).TryGetValue(default, out var day) ? day : null);
        if (SlashDate().Match(text) is not { Success: true } slashes)
            return (null, false, "This is not a date. Write 2026-09-14 or 9/14/2026.");
        var (month, other, year) = (Number(slashes, 1), Number(slashes, 2), Number(slashes, 3));
        if (month > 12)
            return (null, false, "The month comes first: write 9/13/2026 for 13 September 2026.");
        var isDay = month >= 1 && year >= 1 && other >= 1 && other <= CalendarSystem.Iso.GetDaysInMonth(Math.Max(1, year), month);
        var (found, _, problem) = Plausible(isDay ? new LocalDate(year, month, other) : null);
        return (found, found is not null && other <= 12 && other != month, problem);
    }

    /// <summary>A time of day: <c>9:05</c>, <c>09:05</c>, <c>9.05</c>, <c>9:05 AM</c>; null where it is none.</summary>
    public static LocalTime? Time(string text)
    {
        if (ClockTime().Match(text) is not { Success: true } match)
            return null;
        var (hour, minute) = (Number(match, 1), Number(match, 2));
        if (!match.Groups[3].Success)
            return hour <= 23 && minute <= 59 ? new LocalTime(hour, minute) : null;
        var afternoon = match.Groups[3].ValueSpan[0] is 'p' or 'P';
        return hour is >= 1 and <= 12 && minute <= 59 ? new LocalTime(hour % 12 + (afternoon ? 12 : 0), minute) : null;
    }

    /// <summary>How often: <c>week</c>, <c>2 weeks</c>, <c>month</c>, <c>3 months</c>, <c>period</c>, <c>plan year</c>; null where it is none.</summary>
    public static Every? Every(string text)
    {
        if (Frequency().Match(text) is not { Success: true } match)
            return null;
        var count = match.Groups[1].Success ? Number(match, 1) : 1;
        return match.Groups[2].ValueSpan[0] switch
        {
            'w' or 'W' => new Every(EveryUnit.Week, count),
            'm' or 'M' => new Every(EveryUnit.Month, count),
            _ when match.Groups[1].Success => null,
            _ when match.Groups[2].ValueSpan.Contains(' ') => new Every(EveryUnit.PlanYear, 1),
            _ => new Every(EveryUnit.Period, 1),
        };
    }

    /// <summary>A criterion <c>k of n</c>, k from 1 to n; null where it is none.</summary>
    public static (int Days, int Of)? Criterion(string text)
    {
        if (KOfN().Match(text) is not { Success: true } match)
            return null;
        var (days, of) = (Number(match, 1), Number(match, 2));
        return days >= 1 && days <= of ? (days, of) : null;
    }

    /// <summary>The parts of a cell that holds several, separated by semicolons; empty parts are passed over.</summary>
    public static IReadOnlyList<string> Parts(string text) =>
        text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    private static (LocalDate? Day, bool Ambiguous, string? Problem) Plausible(LocalDate? day) => day switch
    {
        null => (null, false, "There is no such day in the calendar."),
        { Year: < FirstYear or > LastYear } => (null, false, "The year of this date cannot be meant."),
        _ => (day, false, null),
    };

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex("^[0-9]{4}-[0-9]{2}-[0-9]{2}$")]
    private static partial Regex IsoDate();

    [GeneratedRegex("^([0-9]{1,2})/([0-9]{1,2})/([0-9]{4})$")]
    private static partial Regex SlashDate();

    [GeneratedRegex("^([0-9]{1,2})[:.]([0-9]{2})(?: ?([ap])\\.?m\\.?)?$", RegexOptions.IgnoreCase)]
    private static partial Regex ClockTime();

    [GeneratedRegex("^(?:([1-9][0-9]?) +)?(weeks?|months?|period|plan +year)$", RegexOptions.IgnoreCase)]
    private static partial Regex Frequency();

    [GeneratedRegex("^([0-9]{1,3}) *of *([0-9]{1,3})$", RegexOptions.IgnoreCase)]
    private static partial Regex KOfN();
}
