using TeamCircle.Core.Import;
using TeamCircle.Data.Import;
using static NodaTime.IsoDayOfWeek;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>
/// The demonstration's visits: a timetable, kept up to yesterday but for what came between, planned from today on. What came
/// between is chosen so that each status has a line that shows it.
/// </summary>
internal sealed class DemonstrationVisits(SchoolYear year)
{
    private sealed record Slot(string Service, string Provider, IsoDayOfWeek Day, LocalTime Start, int Minutes, int Every = 1);

    /// <summary>Visits are planned two weeks into the next period.</summary>
    private const int PlannedWeeks = 2 * SchoolYear.PeriodWeeks + 2;

    private const int HospitalFrom = SchoolYear.PeriodWeeks;
    private const int HospitalTo = SchoolYear.PeriodWeeks + 3;

    private static readonly Slot[] Timetable =
    [
        new("TF07-V", Odalys, Monday, new(8, 30), 30), new("TF07-V", Odalys, Wednesday, new(8, 30), 30),
        new("TF07-OT", Bram, Tuesday, new(8, 30), 30), new("TF07-OT", Bram, Thursday, new(8, 30), 30),
        new("TF07-AT", Tomasz, Wednesday, new(13, 0), 30), new("TF07-PT", Priya, Friday, new(9, 0), 35),
        new("TF12-V", Odalys, Monday, new(9, 30), 30), new("TF12-PT", Priya, Tuesday, new(9, 15), 30),
        new("TF12-OT", Bram, Monday, new(10, 30), 30), new("TF12-OT", Bram, Wednesday, new(10, 30), 30), new("TF12-OT", Bram, Friday, new(10, 30), 30),
        new("TF19-V", Odalys, Monday, new(11, 0), 30), new("TF19-V", Odalys, Tuesday, new(10, 0), 30), new("TF19-V", Odalys, Thursday, new(10, 0), 30),
        new("TF19-AT", Tomasz, Friday, new(10, 0), 30), new("TF19-FT", Marisol, Tuesday, new(14, 0), 30),
        new("TF07-FT", Marisol, Thursday, new(14, 0), 30, Every: 4), new("TF19-OM", Odalys, Wednesday, new(11, 0), 30, Every: SchoolYear.PeriodWeeks),
    ];

    private readonly Table _visits = new(
        FileKind.Visits, "date,service,provider,start,end,outcome,planned start,planned end,reason,makes up for,note");

    public IReadOnlyList<BroughtFile> All()
    {
        for (var week = 0; week < PlannedWeeks; week++)
        {
            foreach (var slot in Timetable.Where(s => week % s.Every == 0 && IsPlanned(s, week)))
                Add(slot, week);
        }
        AddMakeUps();
        return [_visits.ToFile(), Decisions()];
    }

    /// <summary>Nobody has yet planned Jonah's occupational therapy beyond next week.</summary>
    private bool IsPlanned(Slot slot, int week) =>
        year.On(week, slot.Day) != year.StaffDay && (slot.Service != "TF12-OT" || week <= SchoolYear.ThisWeek + 1);

    private void Add(Slot slot, int week)
    {
        var date = year.On(week, slot.Day);
        var start = slot.Start.PlusMinutes(5 * ((week + (int)slot.Day) % 2)); // not to the minute, as in life
        if (date >= year.Today || IsForgotten(slot, date))
            _visits.Add(date, slot.Service, slot.Provider, slot.Start, slot.Start.PlusMinutes(slot.Minutes), "planned");
        else if (Missed(slot, week) is var (outcome, reason))
            _visits.Add(date, slot.Service, slot.Provider, slot.Start, slot.Start.PlusMinutes(slot.Minutes), outcome, null, null, reason);
        else if (slot.Service == "TF12-PT" && week == 4)
            _visits.Add(date, slot.Service, slot.Provider, start, start.PlusMinutes(20), "given", slot.Start, slot.Start.PlusMinutes(slot.Minutes), "learner asleep or not alert");
        else
            _visits.Add(date, slot.Service, slot.Provider, start, start.PlusMinutes(slot.Minutes), "given", null, null, null, null, Note(slot, week));
    }

    /// <summary>The last visit of assistive technology before today waits to be logged.</summary>
    private bool IsForgotten(Slot slot, LocalDate date) =>
        slot.Service == "TF07-AT" && date == year.Today.With(DateAdjusters.Previous(Wednesday));

    private (string Outcome, string Reason)? Missed(Slot slot, int week) => (slot.Service, week) switch
    {
        _ when year.On(week, slot.Day) == year.Storm => ("not offered", "weather or emergency"),
        ("TF19-V" or "TF19-AT" or "TF19-OM", >= HospitalFrom and <= HospitalTo) => ("not offered", "learner in hospital"),
        ("TF07-OT", SchoolYear.PeriodWeeks + 3) => ("not offered", "learner unwell"),
        ("TF07-OT", 6) when slot.Day == Tuesday => ("not offered", "family away"),
        ("TF07-AT", 5) => ("not offered", "provider unwell"),
        ("TF12-V", SchoolYear.PeriodWeeks + 4) => ("offered", "nobody home"),
        _ => null,
    };

    private static string? Note(Slot slot, int week) => (slot.Service, week % 4) switch
    {
        ("TF07-V", 0) => "Watering the herbs at the kitchen table; the blind half closed helped.",
        ("TF07-OT", 1) => "Elbow press without a prompt twice; tired towards the end.",
        ("TF12-OT", 2) => "Warm towel hello. Reached with the left hand after a long wait.",
        _ => null,
    };

    private void AddMakeUps()
    {
        var week = SchoolYear.PeriodWeeks;
        MakeUp("TF07-V", Odalys, year.On(week + 2, Friday), new(10, 0), year.Storm);
        MakeUp("TF12-OT", Bram, year.On(week + 2, Thursday), new(10, 30), year.Storm);
        MakeUp("TF07-OT", Bram, year.On(SchoolYear.ThisWeek + 1, Wednesday), new(9, 30), year.On(week + 3, Tuesday));
        MakeUp("TF07-OT", Bram, year.On(SchoolYear.ThisWeek + 2, Wednesday), new(9, 30), year.On(week + 3, Thursday));
    }

    private void MakeUp(string service, string provider, LocalDate date, LocalTime start, LocalDate pays) =>
        _visits.Add(date, service, provider, start, start.PlusMinutes(30), date < year.Today ? "given" : "planned", null, null, null, pays);

    private BroughtFile Decisions()
    {
        var table = new Table(FileKind.Decisions, "date,service,amount,sessions,decision,decided on,by,family told on,note");
        var decided = year.On(SchoolYear.ThisWeek - 1, Monday);
        table.Add(year.On(6, Tuesday), "TF07-OT", 30, 1, "not owed", year.On(7, Monday), $"{Marisol};{Bram}", year.On(7, Tuesday), "The family was away and asked for no other day.");
        for (var week = HospitalFrom; week <= HospitalTo; week++)
            table.Add(year.On(week, Friday), "TF19-AT", 30, 1, "not owed", decided, $"{Marisol};{Tomasz}", decided, "In hospital; the hospital's own therapists worked with the switch.");
        table.Add(year.On(HospitalFrom, Wednesday), "TF19-OM", 30, null, "not owed", decided, $"{Marisol};{Odalys}", decided, "No walking until the next review.");
        table.Add(year.On(HospitalFrom, Monday), "TF19-V", 90, 3, "meeting", decided, Marisol, decided, "The team meets with the family.");
        table.Add(year.On(SchoolYear.PeriodWeeks + 3, Tuesday), "TF07-OT", 60, 2, "make up", decided, $"{Marisol};{Bram}", decided, null);
        return table.ToFile();
    }
}
