using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Import;

/// <summary>Reads visits: first each row by itself, then which stored visit it is, then who would be in two places at once.</summary>
internal sealed class ReadVisits(Register register, Findings findings)
{
    private readonly StoredVisits _stored = new(register.Facts.Visits);

    /// <summary>All files of visits, in file order: one after the other is one long file.</summary>
    public List<VisitLine> Run(IReadOnlyList<RawTable> tables)
    {
        List<VisitCandidate> rows = [.. tables.SelectMany(t => new TableReader(t, findings).Rows()).Select(Read)];
        new VisitClashes(register.Facts.Visits).Check(rows);
        foreach (var row in rows.Where(r => r.Stands))
            Notes(row.Cells, row.Line!);
        return [.. rows.Where(r => r.Stands).Select(r => r.Line!)];
    }

    private VisitCandidate Read(RowCells row)
    {
        var date = row.Day("date");
        var (service, provider) = (register.Service(row, "service"), register.Person(row, "provider"));
        var (start, end) = (row.Time("start"), row.Time("end"));
        var outcome = row.Word<VisitOutcome>("outcome");
        var (plannedStart, plannedEnd) = (row.TimeOrNone("planned start"), row.TimeOrNone("planned end"));
        var reason = Reason(row);
        var pays = row.DayOrNone("makes up for");
        var notCounted = row.WholeOrNone("not counted", 0, 24 * 60) ?? 0;
        var (format, place) = (row.WordOrNone<SessionFormat>("format"), row.WordOrNone<Place>("place"));
        var partner = register.PersonOrNone(row, "partner");
        var (note, number) = (row.TextOrNone("note"), row.TextOrNone("ref"));
        CheckTimes(row, start, end, notCounted);
        CheckPlannedTimes(row, plannedStart, plannedEnd);
        CheckDays(row, date, outcome, service, pays);
        VisitKey? key = service is not null && date is not null && start is not null ? new(service.Code, date.Value, start.Value) : null;
        var stored = key is { } known ? _stored.Find(number, known, plannedStart) : null;
        var planned = Planned(stored, plannedStart, plannedEnd);
        CheckReason(row, outcome, reason, Minutes(start, end), planned?.Minutes);
        if (!row.IsGood)
            return new(row, key, number, null);
        return new(row, key, number, new(row.File, row.Line, stored, service!.Code, service.Learner, provider!, date!.Value, start!.Value, end!.Value, outcome!.Value,
            planned?.Start, planned?.Minutes, outcome == VisitOutcome.Planned ? null : reason, pays, notCounted, format, place,
            partner, note, number, service.Kind == ServiceKind.Direct, Groups(format, stored, service), service.CoTreatment));
    }

    private static bool Groups(SessionFormat? format, StoredVisit? stored, ServiceFact service) =>
        service.Kind is ServiceKind.Consultation or ServiceKind.ParentCounselingAndTraining
        || (format is { } said ? said == SessionFormat.Group : stored?.Groups ?? service.Format == SessionFormat.Group);

    private static Reason? Reason(RowCells row)
    {
        var text = row.Cell("reason");
        var reason = Words.Find<Reason>(text);
        if (text.Length > 0 && reason is null)
            row.Refuse("reason", "This reason is not one of the list. Write one of the list, or 'other' with a note.");
        return reason;
    }

    private static void CheckTimes(RowCells row, LocalTime? start, LocalTime? end, int notCounted)
    {
        if (Minutes(start, end) is not { } minutes)
            return;
        if (minutes <= 0)
            row.Refuse("end", "The end must come after the start.");
        else if (minutes > SessionRules.LongestMinutes)
            row.Refuse("end", "This visit would be longer than 12 hours.");
        if (notCounted > Math.Max(0, minutes))
            row.Refuse("not counted", "More minutes do not count than the visit lasted.");
    }

    private static void CheckPlannedTimes(RowCells row, LocalTime? start, LocalTime? end)
    {
        if (!row.AreGood("planned start", "planned end"))
            return;
        if (start is null != end is null)
            row.Refuse(start is null ? "planned start" : "planned end", "Planned start and planned end come together.");
        else if (Minutes(start, end) is <= 0 or > SessionRules.LongestMinutes)
            row.Refuse("planned end", "The planned end must come after the planned start, by at most 12 hours.");
    }

    private void CheckDays(RowCells row, LocalDate? date, VisitOutcome? outcome, ServiceFact? service, LocalDate? pays)
    {
        if (date > register.Facts.Today && outcome is VisitOutcome.Given or VisitOutcome.Offered)
            row.Refuse("date", "This day is still to come: the visit can be planned, but not given or offered yet.");
        if (pays is { } day && service is not null && register.Windows(service).Find(Day.Of(day)) < 0)
            row.Refuse("makes up for", "Nothing of this service was owed around this day. Write a school day of the window that the visit makes up for.");
    }

    private static void CheckReason(RowCells row, VisitOutcome? outcome, Reason? reason, int? minutes, int? plannedMinutes)
    {
        if (outcome is VisitOutcome.Offered or VisitOutcome.NotOffered && row.Cell("reason").Length == 0)
            row.Refuse("reason", "A visit that was not given needs a reason. Write 'not recorded' where nobody knows it.");
        else if (outcome == VisitOutcome.Given && reason is not null && minutes is not null && !(minutes < plannedMinutes))
            row.Refuse("reason", "A visit given has a reason only where planned start and planned end show that it was cut short.");
        else if (outcome == VisitOutcome.Planned && reason is not null)
            row.Note("reason", "A planned visit has no reason yet: it was passed over.");
    }

    private void Notes(RowCells row, VisitLine line)
    {
        if (line.Outcome == VisitOutcome.Planned && line.Date < register.Facts.Today)
            row.Note("outcome", "Planned before today and never logged.");
        if (line.Reason == Sessions.Reason.NotRecorded)
            row.Note("reason", "The reason is not recorded: it stays undecided like any other.");
        var service = register.Service(line.Service)!;
        if (line is { Outcome: VisitOutcome.Given, PaysOn: null } && register.Windows(service).FindOwn(Day.Of(line.Date)) < 0)
            row.Note("date", "This session counts nowhere: it lies outside the dates of the service, or where no school day is.");
    }

    /// <summary>What was planned: as the row says, or as it is stored.</summary>
    private static (LocalTime Start, int Minutes)? Planned(StoredVisit? stored, LocalTime? start, LocalTime? end)
    {
        if (start is { } given && Minutes(start, end) is { } minutes)
            return (given, minutes);
        if (stored is { IsPlanned: true })
            return (stored.Start, stored.Minutes);
        return stored is { PlannedStart: { } known, PlannedMinutes: { } length } ? (known, length) : null;
    }

    private static int? Minutes(LocalTime? start, LocalTime? end) =>
        start is { } from && end is { } to ? (int)Period.Between(from, to, PeriodUnits.Minutes).Minutes : null;
}

/// <summary>What tells one visit from another where it has no number of the agency's.</summary>
/// <param name="Service">The line's code.</param>
internal readonly record struct VisitKey(string Service, LocalDate Date, LocalTime Start);

/// <summary>A row of visits and what it says, if it can be read.</summary>
/// <param name="Key">Null where its cells cannot be read.</param>
internal sealed record VisitCandidate(RowCells Cells, VisitKey? Key, string? Ref, VisitLine? Line)
{
    /// <summary>Whether nothing was wrong with it so far.</summary>
    public bool Stands => Line is not null && Cells.IsGood;
}

/// <summary>Finds the stored visit that a row is about.</summary>
internal sealed class StoredVisits
{
    private readonly Dictionary<string, StoredVisit> _byRef = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<VisitKey, StoredVisit> _byStart = [];

    public StoredVisits(IReadOnlyList<StoredVisit> visits)
    {
        foreach (var visit in visits)
        {
            if (visit.Ref is not null)
                _byRef[visit.Ref] = visit;
            _byStart.TryAdd(new(visit.Service, visit.Date, visit.Start), visit);
        }
    }

    /// <summary>By the agency's own number, or else by service, date and start, or the start that was planned.</summary>
    public StoredVisit? Find(string? number, VisitKey key, LocalTime? plannedStart)
    {
        if (number is not null && _byRef.TryGetValue(number, out var numbered))
            return numbered;
        if (_byStart.TryGetValue(key, out var known) && IsFree(known))
            return known;
        return plannedStart is { } planned && _byStart.TryGetValue(key with { Start = planned }, out var waiting) && waiting.IsPlanned && IsFree(waiting)
            ? waiting : null;

        // A visit that already has another number is another visit.
        bool IsFree(StoredVisit visit) => visit.Ref is null || number is null;
    }
}
