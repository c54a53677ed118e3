using System.Globalization;
using NodaTime;
using static TeamCircle.Core.Family.FamilyGlossary;

namespace TeamCircle.Core.Family;

/// <summary>Days, times and amounts as a family reads them. Numbers are written as in the United States and Mexico, in both languages.</summary>
public sealed record FamilyDates(Language Language)
{
    /// <summary>14 September; 14 de septiembre</summary>
    public string Day(LocalDate date) => DayOfMonth.In(Language, Plain(date.Day), Months[date.Month - 1].In(Language));

    /// <summary>14 September 2026; 14 de septiembre de 2026</summary>
    public string Date(LocalDate date) => DayAndYear.In(Language, Day(date), Plain(date.Year));

    /// <summary>Monday 14 September; lunes 14 de septiembre</summary>
    public string Weekday(LocalDate date) => $"{Weekdays[(int)date.DayOfWeek - 1].In(Language)} {Day(date)}";

    /// <summary>Today, tomorrow, yesterday, or the weekday and date.</summary>
    public string NearDay(LocalDate date, LocalDate today) => Period.DaysBetween(today, date) switch
    {
        0 => Today.In(Language),
        1 => Tomorrow.In(Language),
        -1 => Yesterday.In(Language),
        _ => Weekday(date),
    };

    /// <summary>14 September to 13 November 2026; del 14 de septiembre al 13 de noviembre de 2026</summary>
    public string Dates(LocalDate first, LocalDate last) => FromTo.In(Language, first.Year == last.Year ? Day(first) : Date(first), Date(last));

    /// <summary>14, 16 and 21 September and 5 October; 14, 16 y 21 de septiembre y 5 de octubre</summary>
    /// <param name="days">In order.</param>
    public string Days(IEnumerable<LocalDate> days) => List([.. days.Distinct().GroupBy(d => (d.Year, d.Month)).Select(
        g => DayOfMonth.In(Language, List([.. g.Select(d => Plain(d.Day))]), Months[g.Key.Month - 1].In(Language)))]);

    /// <summary>9:30 am; 9:30 a. m.</summary>
    public string Time(LocalTime time) => (time.Hour < 12 ? Morning : Afternoon).In(Language, $"{Plain(time.ClockHourOfHalfDay)}:{time.Minute:00}");

    /// <summary>1 minute; 45 minutos</summary>
    public string Minutes(int count) => (count == 1 ? OneMinute : ManyMinutes).In(Language, Number(count));

    public string Visits(int count) => (count == 1 ? OneVisit : ManyVisits).In(Language, Number(count));

    /// <summary>1,200; Spanish as the United States and Mexico write it, so that it needs no language.</summary>
    public static string Number(int number) => number.ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>Rounded to one decimal place at most: 4.2; 6</summary>
    public static string Number(decimal number) => Math.Round(number, 1, MidpointRounding.AwayFromZero).ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>one, two and three; uno, dos y tres. Empty for nothing.</summary>
    public string List(IReadOnlyList<string> parts) => parts.Count switch
    {
        0 => "",
        1 => parts[0],
        _ => And.In(Language, string.Join(", ", parts.Take(parts.Count - 1)), parts[^1]),
    };

    /// <summary>The same words with a capital, to begin a sentence or a line.</summary>
    public static string Begin(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    private static string Plain(int number) => number.ToString(CultureInfo.InvariantCulture);
}
