using TeamCircle.Core;
using TeamCircle.Core.Calendar;

namespace TeamCircle.Data.Calendar;

/// <summary>The hours of a week as a form has them, one text a weekday, and from when they hold.</summary>
public sealed class WeekInput
{
    public LocalDate? FromDay { get; set; }

    /// <summary>Monday first; empty for none.</summary>
    public List<string?> Days { get; set; } = [.. new string?[7]];

    internal IEnumerable<Problem> Problems()
    {
        if (FromDay is null)
            yield return new($"Week.{nameof(FromDay)}", "Say from which day on this holds.");
        for (var i = 0; i < Math.Min(7, Days.Count); i++)
        {
            if (HoursText.Read(Days[i]) is null)
                yield return new($"Week.{nameof(Days)}[{i}]", $"{(IsoDayOfWeek)(i + 1)}: write hours like 8:00 to 12:00, 13:00 to 16:30.");
        }
    }

    internal IEnumerable<(IsoDayOfWeek Weekday, Hours Hours)> Read() =>
        Days.Take(7).SelectMany((text, i) => (HoursText.Read(text) ?? []).Select(h => ((IsoDayOfWeek)(i + 1), h)));

    /// <summary>The form for hours that stand.</summary>
    public static WeekInput Of(IEnumerable<(IsoDayOfWeek Weekday, Hours Hours)> hours, LocalDate from)
    {
        var byDay = hours.ToLookup(h => h.Weekday, h => h.Hours);
        return new() { FromDay = from, Days = [.. Enumerable.Range(1, 7).Select(d => HoursText.Write(byDay[(IsoDayOfWeek)d]))] };
    }
}
