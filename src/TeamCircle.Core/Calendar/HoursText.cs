using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>A span of one day; the end does not belong to it.</summary>
public readonly record struct Hours(LocalTime From, LocalTime To);

/// <summary>The hours of a weekday as people write them: <c>8:00 to 12:00, 13:00 to 16:30</c>.</summary>
public static class HoursText
{
    private static readonly LocalTimePattern Pattern = LocalTimePattern.CreateWithInvariantCulture("H:mm");
    private static readonly string[] Between = [" to ", "-", "–"];

    /// <summary>Empty for an empty text: none. Null where it cannot be read, an end comes before its start, or two spans meet.</summary>
    public static IReadOnlyList<Hours>? Read(string? text)
    {
        var spans = new List<Hours>();
        foreach (var part in (text ?? "").Split([',', ';'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var ends = part.Split(Between, StringSplitOptions.TrimEntries);
            if (ends.Length != 2 || TypedTime.Read(ends[0]) is not { } from || TypedTime.ReadEnd(ends[1], from) is not { } to || to <= from)
                return null;
            spans.Add(new(from, to));
        }
        spans.Sort((x, y) => x.From.CompareTo(y.From));
        return spans.Zip(spans.Skip(1)).Any(pair => pair.Second.From < pair.First.To) ? null : spans;
    }

    /// <summary>Reads back as it was.</summary>
    public static string Write(IEnumerable<Hours> hours) =>
        string.Join(", ", hours.OrderBy(h => h.From).Select(h => $"{Pattern.Format(h.From)} to {Pattern.Format(h.To)}"));
}
