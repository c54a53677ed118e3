using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using NodaTime;

namespace TeamCircle.Core.Finding;

/// <summary>What somebody typed to find something: the words, and the day among them.</summary>
/// <param name="Words">Small letters and digits without accents, in the order typed, each once; at most <see cref="MostWords"/>.</param>
/// <param name="Day">The first day that was named; null where none was, or where there is no such day.</param>
public sealed partial record Sought(IReadOnlyList<string> Words, LocalDate? Day)
{
    public const int MostWords = 8;

    /// <summary>What is typed beyond it is not looked at.</summary>
    public const int MostLetters = 100;

    private const int MonthLetters = 3, ThisCentury = 2000;

    private static readonly string[] Months =
        ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];

    /// <summary>Whether there are letters enough: a single letter is in nearly every name.</summary>
    public bool HasWords => Words.Any(w => w.Length > 1);

    public bool IsEmpty => !HasWords && Day is null;

    /// <summary>Reads what was typed. A day without a year is the one nearest to today; of two equally near the one to come.</summary>
    /// <remarks>Days: 2026-09-12, 12 September 2026, Sep 12, 9/12 (the month first, as in the United States, unless it can be none), today, tomorrow, yesterday.</remarks>
    /// <param name="typed">Null or blank: nothing sought.</param>
    public static Sought Of(string? typed, LocalDate today)
    {
        var text = Plain((typed ?? "").Trim());
        text = text.Length > MostLetters ? text[..MostLetters] : text;
        LocalDate? day = null;
        foreach (var (pattern, read) in Readings)
        {
            if (pattern.Match(text) is not { Success: true } found || read(found, today) is not { } named)
                continue;
            day = named;
            text = text.Remove(found.Index, found.Length).Insert(found.Index, " ");
            break;
        }
        return new([.. Word().Matches(text).Select(m => m.Value).Distinct().Take(MostWords)], day);
    }

    /// <summary>Small letters without accents, as the database's own <c>portal.plain</c> writes them.</summary>
    public static string Plain(string text)
    {
        var parts = text.ToLowerInvariant().Normalize(NormalizationForm.FormD);
        return string.Concat(parts.Where(c => c is < '\u0300' or > '\u036f'));
    }

    /// <summary>Whether each of the words is a part of one of the texts.</summary>
    public bool AreAllIn(params IReadOnlyList<string> texts)
    {
        var plain = texts.Select(Plain).ToList();
        return Words.All(w => plain.Exists(t => t.Contains(w, StringComparison.Ordinal)));
    }

    private static readonly IReadOnlyList<(Regex Pattern, Func<Match, LocalDate, LocalDate?> Read)> Readings =
    [
        (YearFirst(), (m, _) => DayOf(Number(m, "year"), Number(m, "month"), Number(m, "day"))),
        (Slashes(), (m, today) => OfSlashes(m, today)),
        (DayFirst(), (m, today) => Named(m, today)),
        (MonthFirst(), (m, today) => Named(m, today)),
        (Near(), (m, today) => m.Value switch { "tomorrow" => today.PlusDays(1), "yesterday" => today.PlusDays(-1), _ => today }),
    ];

    private static LocalDate? OfSlashes(Match found, LocalDate today)
    {
        var (first, second) = (Number(found, "first"), Number(found, "second"));
        return first > Months.Length ? InYear(found, today, second, first) : InYear(found, today, first, second);
    }

    private static LocalDate? Named(Match found, LocalDate today)
    {
        var name = found.Groups["month"].Value;
        var month = Array.FindIndex(Months, m => name.Length >= MonthLetters && m.StartsWith(name, StringComparison.Ordinal));
        return month < 0 ? null : InYear(found, today, month + 1, Number(found, "day"));
    }

    private static LocalDate? InYear(Match found, LocalDate today, int month, int day)
    {
        if (found.Groups["year"].Success)
            return Number(found, "year") is var year && year < 100 ? DayOf(ThisCentury + year, month, day) : DayOf(year, month, day);
        return Enumerable.Range(today.Year - 1, 3).Select(y => DayOf(y, month, day)).OfType<LocalDate>()
            .OrderBy(d => Math.Abs(Period.DaysBetween(today, d))).ThenByDescending(d => d).Cast<LocalDate?>().FirstOrDefault();
    }

    private static LocalDate? DayOf(int year, int month, int day) =>
        year is >= 1900 and <= 2999 && month is >= 1 and <= 12 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month) ? new LocalDate(year, month, day) : null;

    private static int Number(Match found, string group) => int.Parse(found.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"[\p{L}\p{Nd}]+")]
    private static partial Regex Word();

    [GeneratedRegex(@"\b(?<year>\d{4})-(?<month>\d{1,2})-(?<day>\d{1,2})\b")]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"\b(?<first>\d{1,2})/(?<second>\d{1,2})(?:/(?<year>\d{4}|\d{2}))?\b")]
    private static partial Regex Slashes();

    [GeneratedRegex(@"\b(?<day>\d{1,2})(?:st|nd|rd|th)?\s+(?:of\s+)?(?<month>[a-z]{3,9})\b\.?(?:,?\s+(?<year>\d{4})\b)?")]
    private static partial Regex DayFirst();

    [GeneratedRegex(@"\b(?<month>[a-z]{3,9})\.?\s+(?<day>\d{1,2})(?:st|nd|rd|th)?\b(?:,?\s+(?<year>\d{4})\b)?")]
    private static partial Regex MonthFirst();

    [GeneratedRegex(@"\b(?:today|tomorrow|yesterday)\b")]
    private static partial Regex Near();
}
