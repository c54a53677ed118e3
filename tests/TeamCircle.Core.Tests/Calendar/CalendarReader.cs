using System.Text;
using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Core.Tests.Calendar;

/// <summary>
/// Reads iCalendar text as strictly as RFC 5545 allows, apart from the code that writes it: section 3.1 (lines, folding, parameters),
/// 3.3.11 (TEXT), 3.3.5 (DATE-TIME with TZID), 3.6.5 (time zones). What the standard forbids is an exception.
/// </summary>
internal static class CalendarReader
{
    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss");

    public sealed record Line(string Name, IReadOnlyDictionary<string, string> Parameters, string Value);

    public sealed record Component(string Name, List<Line> Lines, List<Component> Parts)
    {
        public Line this[string name] => Lines.Single(l => l.Name == name);
    }

    /// <summary>The octets of a calendar as its outermost component.</summary>
    public static Component Read(byte[] octets)
    {
        var lines = Unfold(octets).Select(ReadLine).ToList();
        var at = 0;
        var calendar = ReadComponent(lines, ref at);
        if (at != lines.Count || calendar.Name != "VCALENDAR" || calendar["VERSION"].Value != "2.0")
            throw new FormatException("Not one VCALENDAR of version 2.0.");
        _ = calendar["PRODID"];
        foreach (var visit in calendar.Parts.Where(p => p.Name == "VEVENT"))
            _ = (visit["UID"], visit["DTSTAMP"], visit["DTSTART"]);
        return calendar;
    }

    /// <summary>Section 3.1: lines end with CRLF and have at most 75 octets; a CRLF and one white space in front of an octet are no part of the content.</summary>
    public static IEnumerable<string> Unfold(byte[] octets)
    {
        var strict = new UTF8Encoding(false, throwOnInvalidBytes: true);
        var lines = new List<byte[]>();
        for (int start = 0, end; start < octets.Length; start = end + 2)
        {
            end = Array.IndexOf(octets, (byte)'\r', start);
            if (end < 0 || end + 1 >= octets.Length || octets[end + 1] != '\n')
                throw new FormatException("A line without CRLF.");
            if (end - start > 75)
                throw new FormatException($"A line of {end - start} octets.");
            lines.Add(octets[start..end]);
        }
        if (lines.Exists(l => l.Contains((byte)'\n')))
            throw new FormatException("A line feed without its carriage return.");
        _ = lines.Select(l => strict.GetString(l)).ToList(); // each physical line by itself: no character is split
        var text = strict.GetString(octets).Replace("\r\n ", "", StringComparison.Ordinal).Replace("\r\n\t", "", StringComparison.Ordinal);
        return text[..^2].Split("\r\n");
    }

    /// <summary>name *(";" param) ":" value</summary>
    private static Line ReadLine(string line)
    {
        var parameters = new Dictionary<string, string>();
        var at = NameEnd(line, 0);
        var name = line[..at];
        while (line[at] == ';')
        {
            var equals = NameEnd(line, at + 1);
            var end = line[equals + 1] == '"' ? line.IndexOf('"', equals + 2) + 1 : line.IndexOfAny([';', ':', ','], equals + 1);
            parameters.Add(line[(at + 1)..equals], line[(equals + 1)..end].Trim('"'));
            at = end;
        }
        if (line[at] != ':')
            throw new FormatException($"No colon where one must be: {line}");
        return new(name, parameters, line[(at + 1)..]);
    }

    private static int NameEnd(string line, int start)
    {
        var end = start;
        while (char.IsAsciiLetterOrDigit(line[end]) || line[end] == '-')
            end++;
        return end == start ? throw new FormatException($"A line without a name: {line}") : end;
    }

    private static Component ReadComponent(List<Line> lines, ref int at)
    {
        if (lines[at].Name != "BEGIN")
            throw new FormatException("BEGIN is missing.");
        var component = new Component(lines[at++].Value, [], []);
        while (lines[at].Name != "END")
        {
            if (lines[at].Name == "BEGIN")
                component.Parts.Add(ReadComponent(lines, ref at));
            else
                component.Lines.Add(lines[at++]);
        }
        return lines[at++].Value == component.Name ? component : throw new FormatException($"{component.Name} does not end.");
    }

    /// <summary>Section 3.3.11: a backslash stands before a backslash, a semicolon, a comma and n, and before nothing else.</summary>
    public static string Text(string value)
    {
        var text = new StringBuilder();
        for (var i = 0; i < value.Length; i++)
        {
            if (value[i] is ';' or ',')
                throw new FormatException($"'{value[i]}' without a backslash.");
            text.Append(value[i] != '\\' ? value[i] : value[++i] switch
            {
                'n' or 'N' => '\n',
                '\\' or ';' or ',' => value[i],
                _ => throw new FormatException($"A backslash before '{value[i]}'."),
            });
        }
        return text.ToString();
    }

    /// <summary>A date and time with TZID as an instant, by the calendar's own description of the zone (section 3.6.5): the last onset before it holds.</summary>
    public static Instant Instant(Component calendar, Line line)
    {
        var zone = calendar.Parts.Single(p => p.Name == "VTIMEZONE" && p["TZID"].Value == line.Parameters["TZID"]);
        var local = Local.Parse(line.Value).Value;
        var holding = zone.Parts.Select(p => (Onset: Local.Parse(p["DTSTART"].Value).Value, p)).Where(o => o.Onset <= local).MaxBy(o => o.Onset).p
            ?? throw new FormatException("The zone begins after the time.");
        return local.WithOffset(Offset(holding["TZOFFSETTO"].Value)).ToInstant();
    }

    private static Offset Offset(string text) => OffsetPattern.CreateWithInvariantCulture(text.Length == 5 ? "+HHmm" : "+HHmmss").Parse(text).Value;
}
