using NodaTime;

namespace TeamCircle.Core.Import;

/// <summary>Reads the calendar of a OneRoster set. Its grading periods are reporting periods; of school years, semesters and terms the finest are our terms.</summary>
internal static class ReadRosterSessions
{
    private const string Grading = "gradingPeriod";
    private static readonly string[] Types = [Grading, "semester", "schoolYear", "term"];

    private sealed record Session(RowCells Row, string Id, string Parent, string Type, RosterSpan Span);

    public static RosterReading Run(RawTable table, Findings findings)
    {
        var sessions = new List<Session>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows().Where(ReadRoster.Stands))
        {
            if (Read(row, reader) is { } session)
                sessions.Add(session);
        }
        var parents = sessions.Where(s => s.Type != Grading).Select(s => s.Parent).ToHashSet();
        return new()
        {
            Terms = Spans(sessions.Where(s => s.Type != Grading && !parents.Contains(s.Id))),
            Periods = Spans(sessions.Where(s => s.Type == Grading)),
        };
    }

    private static Session? Read(RowCells row, TableReader reader)
    {
        var (id, title, type) = (row.Text("sourcedId"), row.Text("title"), row.Text("type"));
        var (start, end) = (row.Day("startDate"), row.Day("endDate"));
        if (type is not null && !Types.Contains(type))
            row.Refuse("type", "This is not known here. The standard has gradingPeriod, semester, schoolYear and term.");
        if (start >= end)
            row.Refuse("endDate", "This day must come after the first one: it is the first day that no longer belongs to it.");
        if (id is not null)
            reader.IsFirst(row, "sourcedId", "This sourcedId stands", id);
        return row.IsGood ? new(row, id!, row.Cell("parentSourcedId"), type!, new(title!, start!.Value, end!.Value.PlusDays(-1))) : null;
    }

    /// <summary>Each once, though every school has its own; a name that stands for other days too is pointed out, for it can't be both.</summary>
    private static List<RosterSpan> Spans(IEnumerable<Session> sessions)
    {
        var spans = new List<RosterSpan>();
        foreach (var session in sessions.OrderBy(s => s.Span.First))
        {
            if (spans.Contains(session.Span))
                continue;
            if (spans.Exists(s => string.Equals(s.Name, session.Span.Name, StringComparison.OrdinalIgnoreCase)))
                session.Row.Note("title", $"{session.Span.Name} stands for other days too: keep one of them in the file, or name them apart.");
            spans.Add(session.Span);
        }
        return spans;
    }
}
