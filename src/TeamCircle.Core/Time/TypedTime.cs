using NodaTime;

namespace TeamCircle.Core.Time;

/// <summary>A time of day as people type it: <c>9:05</c>, <c>09:05</c>, <c>9.05</c>, <c>905</c>, <c>9</c>, <c>9:05 AM</c>, <c>905p</c>.</summary>
public static class TypedTime
{
    /// <summary>The time, or null where the text is none.</summary>
    public static LocalTime? Read(string text)
    {
        var (digits, isAfternoon) = Halves(text.Trim().ToUpperInvariant());
        var parts = digits.Split(':', '.');
        var (hourText, minuteText) = parts switch
        {
            [{ Length: 1 or 2 } hour] => (hour, "0"),
            [{ Length: 3 or 4 } both] => (both[..^2], both[^2..]),
            [{ Length: 1 or 2 } hour, { Length: 2 } minute] => (hour, minute),
            _ => ("", ""),
        };
        if (!IsNumber(hourText, out var h) || !IsNumber(minuteText, out var m) || m > 59)
            return null;
        return isAfternoon switch
        {
            null when h <= 23 => new LocalTime(h, m),
            { } afternoon when h is >= 1 and <= 12 => new LocalTime(h % 12 + (afternoon ? 12 : 0), m),
            _ => null,
        };
    }

    /// <summary>
    /// The end of something that started at <paramref name="start"/>. Typed without am or pm, a time that would lie before
    /// the start is read as the afternoon where that lies after it: started at 14:00, "3:10" is 15:10.
    /// </summary>
    public static LocalTime? ReadEnd(string text, LocalTime start)
    {
        if (Read(text) is not { } end || end > start || end.Hour >= 12 || Halves(text.Trim().ToUpperInvariant()).IsAfternoon is not null)
            return Read(text);
        var afternoon = end.PlusHours(12);
        return afternoon > start ? afternoon : end;
    }

    private static (string Digits, bool? IsAfternoon) Halves(string text)
    {
        foreach (var (ending, isAfternoon) in new[] { ("AM", false), ("PM", true), ("A", false), ("P", true) })
        {
            if (text.EndsWith(ending, StringComparison.Ordinal))
                return (text[..^ending.Length].TrimEnd(), isAfternoon);
        }
        return (text, null);
    }

    private static bool IsNumber(string text, out int number)
    {
        number = 0;
        return text.Length > 0 && text.All(char.IsAsciiDigit) &&
            int.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out number);
    }
}
