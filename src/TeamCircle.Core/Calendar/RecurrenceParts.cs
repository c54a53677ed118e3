using System.Globalization;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>The parts of a recurrence rule, each read strictly: the library that works it out passes over much that is wrong.</summary>
internal sealed class RecurrenceParts
{
    private const string Field = "Rule";
    private static readonly string[] Frequencies = ["DAILY", "WEEKLY", "MONTHLY", "YEARLY"];
    private static readonly string[] Days = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];
    private static readonly string[] Known = ["FREQ", "INTERVAL", "COUNT", "UNTIL", "WKST", "BYDAY", "BYMONTHDAY", "BYMONTH", "BYSETPOS"];

    private readonly Dictionary<string, string> _parts = [];
    private readonly List<Problem> _problems = [];
    private LocalDateTime? _untilLocal;
    private Instant? _until;

    private RecurrenceParts()
    {
    }

    /// <summary>How many occurrences there are at most; null: no limit.</summary>
    public int? Count { get; private set; }

    /// <summary>The rule without its end.</summary>
    public string Endless => string.Join(';', _parts.Where(p => p.Key is not ("COUNT" or "UNTIL")).Select(p => $"{p.Key}={p.Value}"));

    public static Outcome<RecurrenceParts> Read(string text)
    {
        var parts = new RecurrenceParts();
        foreach (var part in text.ToUpperInvariant().Split(';'))
            parts.Add(part);
        parts.Check();
        return parts._problems.Count > 0 ? Outcome<RecurrenceParts>.Refused(parts._problems) : Outcome<RecurrenceParts>.Of(parts);
    }

    /// <summary>Whether an occurrence is not past UNTIL, which belongs to the rule.</summary>
    public bool Reaches(LocalDateTime start, DateTimeZone zone) =>
        _until is { } until ? WallTime.Resolve(start, zone).ToInstant() <= until : _untilLocal is not { } local || start <= local;

    private void Add(string part)
    {
        var sign = part.IndexOf('=', StringComparison.Ordinal);
        var name = sign < 0 ? part : part[..sign];
        if (sign < 0 || !Known.Contains(name))
            Wrong($"\"{name}\" is not known here; known parts: {string.Join(", ", Known)}");
        else if (!_parts.TryAdd(name, part[(sign + 1)..]))
            Wrong($"{name} stands twice");
    }

    private void Check()
    {
        if (!_parts.TryGetValue("FREQ", out var frequency))
            Wrong("FREQ is missing");
        else if (!Frequencies.Contains(frequency))
            Wrong($"FREQ must be one of {string.Join(", ", Frequencies)}");
        Count = Number("COUNT", 1, 9999);
        Number("INTERVAL", 1, 999);
        Numbers("BYMONTH", 1, 12);
        Numbers("BYMONTHDAY", -31, 31);
        Numbers("BYSETPOS", -366, 366);
        if (_parts.TryGetValue("WKST", out var start) && !Days.Contains(start))
            Wrong($"WKST must be one of {string.Join(", ", Days)}");
        CheckDays(frequency);
        CheckUntil();
        if (frequency == "WEEKLY" && _parts.ContainsKey("BYMONTHDAY"))
            Wrong("BYMONTHDAY has no meaning in a weekly rule");
        if (_parts.ContainsKey("BYSETPOS") && !_parts.Keys.Any(k => k is "BYDAY" or "BYMONTHDAY" or "BYMONTH"))
            Wrong("BYSETPOS needs another part that begins with BY");
    }

    private void CheckDays(string? frequency)
    {
        foreach (var day in _parts.TryGetValue("BYDAY", out var days) ? days.Split(',') : [])
        {
            var place = day.Length < 2 ? day : day[..^2];
            if (day.Length < 2 || !Days.Contains(day[^2..]) || (place.Length > 0 && !IsNumber(place, -53, 53)))
                Wrong($"BYDAY has \"{day}\"; it must be days such as MO, 2TU or -1FR");
            else if (place.Length > 0 && frequency is not ("MONTHLY" or "YEARLY"))
                Wrong($"BYDAY has \"{day}\"; a number before the day belongs to a monthly or yearly rule");
        }
    }

    private void CheckUntil()
    {
        if (!_parts.TryGetValue("UNTIL", out var until))
            return;
        if (_parts.ContainsKey("COUNT"))
            Wrong("COUNT and UNTIL can't stand together");
        var (date, local, utc) = (LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd").Parse(until),
            LocalDateTimePattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss").Parse(until),
            InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'").Parse(until));
        if (date.Success)
            _untilLocal = date.Value + LocalTime.MaxValue;
        else if (local.Success)
            _untilLocal = local.Value;
        else if (utc.Success)
            _until = utc.Value;
        else
            Wrong("UNTIL must be a date or a time such as 20261218 or 20261218T170000Z");
    }

    private int? Number(string name, int least, int most)
    {
        if (!_parts.TryGetValue(name, out var text))
            return null;
        if (IsNumber(text, least, most))
            return int.Parse(text, CultureInfo.InvariantCulture);
        Wrong(string.Create(CultureInfo.InvariantCulture, $"{name} must be a whole number from {least} to {most}"));
        return null;
    }

    private void Numbers(string name, int least, int most)
    {
        if (_parts.TryGetValue(name, out var text) && !text.Split(',').All(n => IsNumber(n, least, most)))
            Wrong(string.Create(CultureInfo.InvariantCulture, $"{name} must be whole numbers from {least} to {most}, without 0"));
    }

    private static bool IsNumber(string text, int least, int most) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && number != 0 && number >= least && number <= most;

    private void Wrong(string sentence) => _problems.Add(new(Field, sentence));
}
