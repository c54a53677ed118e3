using System.Text;
using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>Turns the bytes that came into rows, events and text, before anybody asks what they mean.</summary>
internal static class ReadBrought
{
    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <param name="takes">Which events of a calendar file are closures, by their own name in it.</param>
    /// <param name="until">The last day for which events that repeat are unfolded.</param>
    public static (Brought Brought, List<FileProblem> Problems) Run(IEnumerable<BroughtFile> files, Func<RawEvent, bool> takes, LocalDate until)
    {
        var problems = new List<FileProblem>();
        RawText? agency = null;
        var calendars = new List<RawCalendar>();
        var tables = new List<RawTable>();
        foreach (var file in files)
        {
            if (Text(file, problems) is not { } text)
                continue;
            if (file.Kind == FileKind.Agency)
                agency = new(file.Name, text);
            else if (file.Kind == FileKind.ClosureEvents)
                calendars.AddRange(Calendar(file, text, takes, until, problems));
            else
                tables.Add(CsvTable.Read(file.Kind, file.Name, text));
        }
        return (new(agency, calendars, tables), problems);
    }

    private static string? Text(BroughtFile file, List<FileProblem> problems)
    {
        try
        {
            var bytes = file.Content.AsSpan();
            var text = Strict.GetString(bytes.StartsWith(Encoding.UTF8.Preamble) ? bytes[3..] : bytes);
            if (!text.Contains('\0', StringComparison.Ordinal))
                return text;
            problems.Add(new(file.Name, 1, "", "This is not a text file."));
        }
        catch (DecoderFallbackException wrong)
        {
            var line = 1 + file.Content.AsSpan(0, Math.Clamp(wrong.Index, 0, file.Content.Length)).Count((byte)'\n');
            problems.Add(new(file.Name, line, "", "This file is not written in UTF-8. Save it as 'CSV UTF-8'."));
        }
        return null;
    }

    private static IEnumerable<RawCalendar> Calendar(
        BroughtFile file, string text, Func<RawEvent, bool> takes, LocalDate until, List<FileProblem> problems)
    {
        if (CalendarEvents.Read(file.Name, text, until) is { } calendar)
            return [calendar with { Events = [.. calendar.Events.Where(takes)] }];
        problems.Add(new(file.Name, 1, "", "This is not a calendar file (RFC 5545), or it is damaged."));
        return [];
    }
}
