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

    /// <summary>Ends the standing hours the day before these hold, or takes them back where they begin later; gives the new rows.</summary>
    /// <param name="standing">Those that hold on <see cref="FromDay"/> or later.</param>
    /// <param name="row">A row of the same person or learner with nothing else in it.</param>
    internal IReadOnlyList<T> Replace<T>(IEnumerable<T> standing, Func<T> row) where T : class, IHoursRow
    {
        var from = FromDay!.Value;
        foreach (var old in standing)
        {
            if (old.FromDay < from)
                old.ToDay = from.PlusDays(-1);
            else
                (old.Live, old.TakenBackReason) = (false, "replaced by other hours");
        }
        return [.. Read().Select(span =>
        {
            var made = row();
            (made.Weekday, made.FromTime, made.ToTime, made.FromDay) = (span.Weekday, span.Hours.From, span.Hours.To, from);
            return made;
        })];
    }

    /// <summary>The form for hours that stand.</summary>
    public static WeekInput Of(IEnumerable<(IsoDayOfWeek Weekday, Hours Hours)> hours, LocalDate from)
    {
        var byDay = hours.ToLookup(h => h.Weekday, h => h.Hours);
        return new() { FromDay = from, Days = [.. Enumerable.Range(1, 7).Select(d => HoursText.Write(byDay[(IsoDayOfWeek)d]))] };
    }
}
