using System.Globalization;
using NodaTime;

namespace TeamCircle.Core.Calendar;

public enum CadenceUnit
{
    /// <summary>On weekdays of every so many weeks.</summary>
    Week,

    /// <summary>On one weekday of every so many months: the second Tuesday, the last Friday.</summary>
    Month,
}

/// <summary>How often visits recur, in the two ways that people can say by a form; each is a rule of RFC 5545.</summary>
/// <param name="Every">1 to 12: every week, every second week, and so on.</param>
/// <param name="Days">For weeks one weekday or more; for months exactly one.</param>
/// <param name="Which">For months: 1 to 4, or -1 for the last. Not used for weeks.</param>
public sealed record Cadence(CadenceUnit Unit, int Every, IReadOnlyList<IsoDayOfWeek> Days, int Which = 1)
{
    public const int MostEvery = 12;
    private static readonly string[] Codes = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];
    private static readonly string[] Places = ["first", "second", "third", "fourth"];

    /// <summary>All problems of what was chosen; none where it makes a rule.</summary>
    public IEnumerable<Problem> Check()
    {
        if (Every is < 1 or > MostEvery)
            yield return new("Every", $"Choose a number from 1 to {MostEvery}.");
        if (Days.Count == 0)
            yield return new("Days", "Choose at least one weekday.");
        else if (Unit == CadenceUnit.Month && Days.Count > 1)
            yield return new("Days", "A visit that recurs by months is on one weekday. Schedule one series for each.");
        if (Unit == CadenceUnit.Month && Which is not (-1 or (>= 1 and <= 4)))
            yield return new("Which", "Choose which of the month's weekdays it is.");
    }

    /// <summary>The rule's text. <paramref name="weekStart"/> decides which weeks are every second one.</summary>
    public string Rule(IsoDayOfWeek weekStart)
    {
        var days = Days.Distinct().Order().Select(d => Codes[(int)d - 1]);
        return Unit == CadenceUnit.Week
            ? string.Create(CultureInfo.InvariantCulture, $"FREQ=WEEKLY;INTERVAL={Every};BYDAY={string.Join(',', days)};WKST={Codes[(int)weekStart - 1]}")
            : string.Create(CultureInfo.InvariantCulture, $"FREQ=MONTHLY;INTERVAL={Every};BYDAY={Which}{days.Single()}");
    }

    /// <summary>The cadence that such a rule came from; null for any other rule.</summary>
    public static Cadence? Of(string rule)
    {
        var parts = rule.Split(';').Select(p => p.Split('=')).Where(p => p.Length == 2).ToDictionary(p => p[0], p => p[1]);
        if (!parts.TryGetValue("FREQ", out var frequency) || !parts.TryGetValue("BYDAY", out var days)
            || !parts.TryGetValue("INTERVAL", out var interval) || !int.TryParse(interval, CultureInfo.InvariantCulture, out var every))
            return null;
        IsoDayOfWeek[] weekdays = [.. days.Split(',').Select(d => (IsoDayOfWeek)(Array.IndexOf(Codes, d[^2..]) + 1))];
        return frequency switch
        {
            "WEEKLY" => new(CadenceUnit.Week, every, weekdays),
            "MONTHLY" when int.TryParse(days[..^2], CultureInfo.InvariantCulture, out var which) => new(CadenceUnit.Month, every, weekdays, which),
            _ => null,
        };
    }

    /// <summary>every week on Monday and Wednesday; every 2 weeks on Friday; every month on the second Tuesday</summary>
    public string Words
    {
        get
        {
            string[] days = [.. Days.Distinct().Order().Select(d => d.ToString())];
            var often = Every == 1 ? $"every {Unit}" : string.Create(CultureInfo.InvariantCulture, $"every {Every} {Unit}s");
            var on = Unit == CadenceUnit.Month ? $"the {(Which == -1 ? "last" : Places[Which - 1])} {days[0]}"
                : days.Length == 1 ? days[0] : $"{string.Join(", ", days[..^1])} and {days[^1]}";
            return $"{often.ToLowerInvariant()} on {on}";
        }
    }
}
