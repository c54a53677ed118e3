using System.Globalization;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Time;

namespace TeamCircle.Web.Ui;

/// <summary>
/// How everything is said to staff: the one glossary in code. Dates, times and amounts are here, the words for codes in
/// the other half. Families read words of their own.
/// </summary>
public static partial class Say
{
    private static readonly LocalDatePattern DatePattern = LocalDatePattern.CreateWithInvariantCulture("d MMMM uuuu");
    private static readonly LocalDatePattern ShortPattern = LocalDatePattern.CreateWithInvariantCulture("ddd d MMM");
    private static readonly LocalDatePattern MonthPattern = LocalDatePattern.CreateWithInvariantCulture("MMMM");

    /// <summary>14 September 2026</summary>
    public static string Date(LocalDate date) => DatePattern.Format(date);

    /// <summary>14 September</summary>
    public static string Day(LocalDate date) => ClockWords.Day(date);

    /// <summary>Monday 14 September</summary>
    public static string Weekday(LocalDate date) => ClockWords.Weekday(date);

    /// <summary>Mon 14 Sep</summary>
    public static string ShortDay(LocalDate date) => ShortPattern.Format(date);

    /// <summary>"today", "tomorrow", "yesterday", or the weekday and date.</summary>
    public static string NearDay(LocalDate date, LocalDate today) => Period.DaysBetween(today, date) switch
    {
        0 => "today",
        1 => "tomorrow",
        -1 => "yesterday",
        _ => Weekday(date),
    };

    /// <summary>14 September to 13 November 2026; the first year only where it differs.</summary>
    public static string Dates(LocalDate first, LocalDate last) =>
        $"{(first.Year == last.Year ? Day(first) : Date(first))} to {Date(last)}";

    /// <summary>9:30 am</summary>
    public static string Time(LocalTime time) => ClockWords.Time(time);

    /// <summary>9:30 to 10:15 am</summary>
    public static string Times(LocalTime start, LocalTime end) => ClockWords.Times(start, end);

    /// <summary>The name of a window, to stand in a sentence: week of 14 September; 2 weeks from 14 September; October.</summary>
    public static string Window(Every every, LocalDate first) => (every.Unit, every.Count) switch
    {
        (EveryUnit.Week, 1) => $"week of {Day(first)}",
        (EveryUnit.Week, var n) => $"{n} weeks from {Day(first)}",
        (EveryUnit.Month, 1) => MonthPattern.Format(first),
        (EveryUnit.Month, var n) => $"{n} months from {MonthPattern.Format(first)}",
        (EveryUnit.Period, _) => $"reporting period from {Day(first)}",
        _ => $"plan year from {Date(first)}",
    };

    /// <summary>The same after a preposition: the week of 14 September; October.</summary>
    public static string TheWindow(Every every, LocalDate first) =>
        every is { Unit: EveryUnit.Month, Count: 1 } ? Window(every, first) : $"the {Window(every, first)}";

    /// <summary>How often a promise renews: a week; every 2 weeks; a month; a reporting period; a plan year.</summary>
    public static string Every(Every every) => (every.Unit, every.Count) switch
    {
        (EveryUnit.Week, 1) => "a week",
        (EveryUnit.Week, var n) => $"every {n} weeks",
        (EveryUnit.Month, 1) => "a month",
        (EveryUnit.Month, var n) => $"every {n} months",
        (EveryUnit.Period, _) => "a reporting period",
        _ => "a plan year",
    };

    public static string Minutes(int count) => Count(count, "minute");

    public static string Sessions(int count) => Count(count, "session");

    public static string Probes(int count) => Count(count, "probe");

    /// <summary>1 visit; 3 visits; 1,200 minutes. The plural takes an s.</summary>
    public static string Count(int count, string one) => $"{Number(count)} {one}{(count == 1 ? "" : "s")}";

    public static string Number(int number) => number.ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>one; one and two; one, two and three. Empty for nothing.</summary>
    public static string List(IReadOnlyList<string> parts) => parts.Count switch
    {
        0 => "",
        1 => parts[0],
        _ => $"{string.Join(", ", parts.Take(parts.Count - 1))} and {parts[^1]}",
    };

    /// <summary>The same words with a capital, to begin a sentence or a line.</summary>
    public static string Begin(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>The same words without a capital, to stand inside a sentence; words that are all capitals stay.</summary>
    public static string Within(string words) =>
        words.Length > 1 && char.IsUpper(words[1]) ? words : words.Length == 0 ? words : char.ToLowerInvariant(words[0]) + words[1..];
}
