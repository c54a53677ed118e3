using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>Reads terms, reporting periods, closures and extra days.</summary>
internal sealed class ReadCalendar(Register register, Findings findings)
{
    public List<TermLine> Terms(RawTable table)
    {
        var good = new List<TermLine>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            var (name, first, last) = (row.Text("name"), row.Day("first day"), row.Day("last day"));
            var kind = row.WordOrNone<TermKind>("kind") ?? TermKind.Regular;
            row.InOrder(first, last, "last day");
            if (name is not null)
                reader.IsFirst(row, "name", "This term stands", name);
            if (!row.IsGood)
                continue;
            var line = new TermLine(row.File, row.Line, register.Terms.GetValueOrDefault(name!)?.Name ?? name!, first!.Value, last!.Value, kind);
            register.Terms[line.Name] = new(line.Name, new(line.FirstDay, line.LastDay, line.Kind));
            good.Add(line);
        }
        return good;
    }

    /// <remarks>Periods of the file are compared with each other and with stored ones that the file does not name.</remarks>
    public List<PeriodLine> Periods(RawTable table)
    {
        var good = new List<PeriodLine>();
        var reader = new TableReader(table, findings);
        var rows = reader.Rows().Select(row => (Row: row, Name: row.Text("name"), Start: row.Day("start"), End: row.Day("end"))).ToList();
        var named = rows.Where(r => r.Name is not null).Select(r => r.Name!).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var standing = register.Periods.Values.Where(p => !named.Contains(p.Name)).ToList();
        foreach (var (row, name, start, end) in rows)
        {
            row.InOrder(start, end, "end");
            if (name is not null)
                reader.IsFirst(row, "name", "This period stands", name);
            if (row.IsGood && standing.Find(p => p.Start <= end && p.End >= start) is { } other)
                row.Refuse("start", $"This period overlaps {other.Name}.");
            if (!row.IsGood)
                continue;
            var line = new PeriodLine(row.File, row.Line, register.Periods.GetValueOrDefault(name!)?.Name ?? name!, start!.Value, end!.Value);
            register.Periods[line.Name] = new(line.Name, line.Start, line.End);
            standing.Add(register.Periods[line.Name]);
            good.Add(line);
        }
        return good;
    }

    public List<ClosureLine> Closures(RawTable table)
    {
        var good = new List<ClosureLine>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            var (date, name) = (row.Day("date"), row.Text("name"));
            var kind = row.WordOrNone<ClosureKind>("kind") ?? ClosureKind.Published;
            if (date is { } day)
                reader.IsFirst(row, "date", "This day stands", day.ToString("uuuu-MM-dd", null));
            if (!row.IsGood)
                continue;
            register.SpecialDays[date!.Value] = kind;
            good.Add(new(row.File, row.Line, date.Value, name!, kind));
        }
        return good;
    }

    /// <summary>The days of events as published closures, but for days that the table of closures names itself.</summary>
    public List<ClosureLine> Events(RawCalendar calendar, IReadOnlyList<ClosureLine> table)
    {
        var taken = table.ToDictionary(c => c.Date, c => c.Name);
        var good = new List<ClosureLine>();
        foreach (var one in calendar.Events)
        {
            if (one.Days.Count == 0)
                findings.Note(new(calendar.File, one.Line, "DTSTART", $"'{one.Name}' does not last whole days and was not taken as a closure."));
            foreach (var day in one.Days.Where(day => !taken.ContainsKey(day)))
            {
                taken[day] = one.Name;
                register.SpecialDays[day] = ClosureKind.Published;
                good.Add(new(calendar.File, one.Line, day, one.Name, ClosureKind.Published));
            }
        }
        return good;
    }

    /// <summary>Lists reporting periods that leave school days between them.</summary>
    public void CheckGaps(string file)
    {
        var days = register.Calendar().For(Learners.LineTerms.Both);
        var periods = register.Periods.Values.OrderBy(p => p.Start).ToList();
        foreach (var (before, after) in periods.Zip(periods.Skip(1)))
        {
            var gap = DateRange.Of(before.End.PlusDays(1), after.Start.PlusDays(-1));
            if (!gap.IsEmpty && days.Scheduled(gap) is > 0 and var left)
                findings.Note(new(file, 0, "start", $"{before.Name} and {after.Name} leave {left} school days between them: windows that close there belong to no period."));
        }
    }
}
