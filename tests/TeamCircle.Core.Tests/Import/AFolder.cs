using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Import;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Import;

/// <summary>
/// Files for an agency that holds two learners, Wren and Jonah, and knows: Odalys and Bram; services WREN-V, WREN-OT (which
/// allows co-treatment), WREN-AT (which allows it too), JONAH-V, and for adults WREN-FT and JONAH-FT; goal WREN-G.
/// Today is 2 October 2026, a Friday.
/// </summary>
internal sealed class AFolder
{
    public const string Odalys = "odalys@tallowfern.example";
    public const string Bram = "bram@tallowfern.example";
    public const string VisitColumns = "date,service,provider,start,end,outcome,planned start,planned end,reason,makes up for,not counted,format,place,partner,note,ref";

    private readonly List<RawTable> _tables = [];
    private RawText? _agency;
    private ImportFacts _facts = Facts();

    public AFolder Agency(string json)
    {
        _agency = new("agency.json", json);
        return this;
    }

    /// <summary>A table whose rows hold no commas in their cells; its first row stands on line 2.</summary>
    public AFolder Table(FileKind kind, string header, params string[] rows)
    {
        _tables.Add(new(kind, FileShape.Of(kind).FileName, 1, header.Split(','), [.. rows.Select((r, i) => new RawRow(i + 2, r.Split(',')))]));
        return this;
    }

    public AFolder Visits(params string[] rows) => Table(FileKind.Visits, VisitColumns, rows);

    public AFolder Holding(params StoredVisit[] visits)
    {
        _facts = _facts with { Visits = visits };
        return this;
    }

    public AFolder Holding(Func<ImportFacts, ImportFacts> change)
    {
        _facts = change(_facts);
        return this;
    }

    public FolderReading Read() => ReadFolder.Run(new(_agency, [], _tables), _facts);

    /// <summary>The problems as "line column", in order.</summary>
    public string Refused() => string.Join("; ", Read().Problems.Select(p => $"{p.Line} {p.Column}"));

    public static StoredVisit Stored(
        string service, LocalDate date, string start, int minutes, string provider = Odalys, bool planned = true, string? number = null) => new(
        Guid.CreateVersion7(), number, service, service.Split('-')[0], provider, date, CellText.Time(start)!.Value, minutes, planned,
        null, null, true, !service.EndsWith("FT", StringComparison.Ordinal), false, CoTreatment.None, 1, 1);

    private static ImportFacts Facts() => new()
    {
        Today = new(2026, 10, 2),
        Agency = new(0b0011111, IsoDayOfWeek.Monday, [Policy.Default]),
        Terms = [new("2026-2027", new(new(2026, 8, 17), new(2027, 5, 28), TermKind.Regular))],
        Periods = [new("Period 1", new(2026, 8, 17), new(2026, 10, 16))],
        Emails = [Odalys, Bram],
        Learners = [Learner("WREN"), Learner("JONAH")],
        Services =
        [
            Service("WREN-V", "WREN", ServiceKind.Direct), Service("WREN-OT", "WREN", ServiceKind.Direct, CoTreatment.Full),
            Service("WREN-AT", "WREN", ServiceKind.Direct, CoTreatment.Full), Service("JONAH-V", "JONAH", ServiceKind.Direct),
            Service("WREN-FT", "WREN", ServiceKind.ParentCounselingAndTraining), Service("JONAH-FT", "JONAH", ServiceKind.ParentCounselingAndTraining),
        ],
        Goals = [new("WREN-G", "WREN", Measure.PercentIndependent, new(2026, 8, 17), new(2027, 5, 6), new Every(EveryUnit.Week, 1), 1)],
    };

    private static LearnerFact Learner(string code) => new(code, [DateRange.Of(new(2026, 5, 7), new(2027, 5, 6))]);

    private static ServiceFact Service(string code, string learner, ServiceKind kind, CoTreatment together = CoTreatment.None) => new(
        code, learner, Discipline.Vision, kind, Place.Home, SessionFormat.Individual, LineTerms.Regular, together, null,
        new Every(EveryUnit.Week, 1), null, new(2026, 8, 17), new(2027, 5, 6), [new(code, new(2026, 8, 17), 60, null)]);
}
