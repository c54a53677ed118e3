using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>Reads services: first those that stand on their own, then, from one to the next, those that continue another.</summary>
internal sealed class ReadServices(Register register, Findings findings)
{
    private sealed record Row(RowCells Cells, ServiceLine Line, string? Continues);

    private readonly List<Row> _good = [];

    public List<ServiceLine> Run(RawTable table)
    {
        var reader = new TableReader(table, findings);
        var rows = reader.Rows().Select(cells => (Cells: cells, Row: Read(cells, reader))).ToList();
        foreach (var (cells, row) in rows.Where(r => r.Row?.Continues is null))
            Keep(cells, row is null ? null : Begin(row));
        var waiting = rows.Where(r => r.Row?.Continues is not null).Select(r => r.Row!).ToList();
        while (waiting.Find(IsNext) is { } next)
        {
            waiting.Remove(next);
            Keep(next.Cells, Continue(next));
        }
        foreach (var row in waiting) // they name one another in a circle
        {
            row.Cells.Refuse("continues", "A service cannot continue itself.");
            Keep(row.Cells, null);
        }
        CheckEnds();
        return [.. _good.Where(r => r.Cells.IsGood).Select(r => r.Line).OrderBy(l => l.Line)];

        bool IsNext(Row row) => !waiting.Exists(w => string.Equals(w.Line.Code, row.Continues, StringComparison.OrdinalIgnoreCase));
    }

    private void Keep(RowCells cells, Row? row)
    {
        if (row is null || !cells.IsGood)
            register.Refused(FileKind.Services, cells, cells.Cell("code"));
        else
            _good.Add(row);
    }

    /// <summary>The row by itself, or null where a cell is wrong.</summary>
    private Row? Read(RowCells row, TableReader reader)
    {
        var (code, learner) = (row.Text("code"), register.LearnerWithPlan(row));
        var discipline = row.Word<Discipline>("service");
        var provider = register.PersonOrNone(row, "provider");
        var wording = row.WordOrNone<Wording>("wording");
        var quantity = wording is null ? row.Whole("quantity", 0, 100_000) : row.WholeOrNone("quantity", 0, 100_000) ?? 0;
        var sessions = Sessions(row, quantity);
        var high = row.WholeOrNone("quantity to", quantity ?? 0, 100_000);
        var every = row.Every("every");
        var (from, to) = (row.Day("from"), row.Day("to"));
        var (place, kind) = (row.Word<Place>("place"), row.Word<ServiceKind>("kind"));
        var terms = row.WordOrNone<LineTerms>("terms") ?? LineTerms.Regular;
        var together = row.WordOrNone<CoTreatment>("co-treatment") ?? CoTreatment.None;
        var shortWindow = row.WordOrNone<ShortWindow>("short window");
        var format = row.WordOrNone<SessionFormat>("format") ?? SessionFormat.Individual;
        var (words, page, continues) = (row.TextOrNone("words"), row.TextOrNone("page"), row.TextOrNone("continues"));
        row.InOrder(from, to, "to");
        if (code is not null)
            reader.IsFirst(row, "code", "This code stands", code);
        if (!row.IsGood)
            return null;
        return new(row, new(row.File, row.Line, code!, code!, learner!.Code, discipline!.Value, provider, quantity!.Value, high, sessions,
            every!.Value, from!.Value, to!.Value, place!.Value, kind!.Value, terms, together, shortWindow, format, wording, words, page), continues);
    }

    private static int? Sessions(RowCells row, int? quantity)
    {
        var sessions = row.WholeOrNone("sessions", 1, 1000);
        if (sessions is not null && quantity % sessions != 0)
            row.Refuse("sessions", "The number of sessions must divide the minutes, so that each session has the same length.");
        return sessions;
    }

    private Row? Begin(Row row)
    {
        var (cells, line) = (row.Cells, row.Line);
        var stored = register.Service(line.Code);
        if (stored is not null && stored.IndexOf(line.Code) > 0)
            cells.Refuse("continues", $"This service continues {stored.Code}: leave that in the file.");
        if (stored is not null && !Same(stored.Learner, line.Learner))
            cells.Refuse("learner", "This code belongs to a service of another learner.");
        if (stored is not null && stored.Every != line.Every && stored.Versions.Count > 1)
            cells.Refuse("every", "This service has newer versions, so its kind of window stays. Give the change a line of its own.");
        if (!cells.IsGood)
            return null;
        var kept = row with { Line = line with { Code = stored?.Versions[0].Code ?? line.Code, LineCode = stored?.Code ?? line.Code } };
        var first = new VersionFact(kept.Line.Code, line.From, line.Quantity, line.Sessions);
        register.Set(new ServiceFact(kept.Line.LineCode, line.Learner, line.Discipline, line.Kind, line.Place, line.Format, line.Terms, line.CoTreatment,
            line.ShortWindow, line.Every, line.Wording, line.From, stored?.Versions.Count > 1 ? stored.To : line.To,
            [first, .. stored?.Versions.Skip(1) ?? []]));
        return kept;
    }

    private Row? Continue(Row row)
    {
        var cells = row.Cells;
        if (register.Service(cells, "continues") is not { } line)
            return null;
        var stored = register.Service(row.Line.Code);
        if (stored is not null && (!Same(stored.Code, line.Code) || stored.IndexOf(row.Line.Code) == 0))
            cells.Refuse("code", "This code already names another service.");
        CheckSame(cells, line, row.Line);
        if (!cells.IsGood)
            return null;
        var before = line.IndexOf(row.Continues!);
        var known = line.IndexOf(row.Line.Code);
        if (known < 0 ? before < line.Versions.Count - 1 : known != before + 1)
            cells.Refuse("continues", "That service is already continued by another one.");
        else if (row.Line.From <= line.Versions[before].From || row.Line.From != DayAfter(line, before))
            cells.Refuse("from", $"A new version starts on the day after {row.Continues} ends.");
        if (!cells.IsGood)
            return null;
        var kept = row with { Line = row.Line with { Code = known < 0 ? row.Line.Code : line.Versions[known].Code, LineCode = line.Code } };
        var version = new VersionFact(kept.Line.Code, row.Line.From, row.Line.Quantity, row.Line.Sessions);
        VersionFact[] versions = [.. line.Versions.Take(before + 1), version, .. line.Versions.Skip(before + 2)];
        register.Set(line with { Versions = versions, To = before + 2 == versions.Length ? row.Line.To : line.To });
        return kept;
    }

    /// <summary>The day after the version ends, by its own row where this file has it.</summary>
    private LocalDate DayAfter(ServiceFact line, int version)
    {
        var row = _good.Find(r => Same(r.Line.Code, line.Versions[version].Code));
        return (row?.Line.To ?? line.EndOf(version)).PlusDays(1);
    }

    private static void CheckSame(RowCells cells, ServiceFact line, ServiceLine row)
    {
        const string newLine = "A new version changes the amount. Give this change a line of its own, without 'continues'.";
        if (!Same(line.Learner, row.Learner))
            cells.Refuse("learner", newLine);
        if (line.Every != row.Every)
            cells.Refuse("every", newLine);
        if (line.Discipline != row.Discipline)
            cells.Refuse("service", newLine);
        if (line.Kind != row.Kind)
            cells.Refuse("kind", newLine);
        if (line.Terms != row.Terms)
            cells.Refuse("terms", newLine);
    }

    /// <summary>Each version ends on the day before the next one starts.</summary>
    private void CheckEnds()
    {
        foreach (var row in _good)
        {
            var line = register.Service(row.Line.Code)!;
            if (line.EndOf(line.IndexOf(row.Line.Code)) == row.Line.To)
                continue;
            row.Cells.Refuse("to", $"The next version of this service starts on {line.Versions[line.IndexOf(row.Line.Code) + 1].From:uuuu-MM-dd}: this one ends on the day before.");
            register.Refused(FileKind.Services, row.Cells, row.Line.Code);
        }
    }

    private static bool Same(string left, string right) => string.Equals(left, right, StringComparison.OrdinalIgnoreCase);
}
