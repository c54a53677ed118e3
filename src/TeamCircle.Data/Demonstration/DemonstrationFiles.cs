using System.Text;
using TeamCircle.Core.Import;
using TeamCircle.Data.Import;

namespace TeamCircle.Data.Demonstration;

/// <summary>The demonstration agency's own files: calendar, people, learners, what their plans promise.</summary>
internal sealed class DemonstrationFiles(SchoolYear year)
{
    public const string Odalys = "odalys@tallowfern.example";
    public const string Bram = "bram@tallowfern.example";
    public const string Priya = "priya@tallowfern.example";
    public const string Tomasz = "tomasz@tallowfern.example";
    public const string Marisol = "marisol@tallowfern.example";
    public const string Dele = "dele@tallowfern.example";
    public const string Ines = "ines@family.example";

    public IReadOnlyList<BroughtFile> All() =>
    [
        Agency(), Terms(), Periods(), Closures(), People(), Learners(), Services(), Goals(),
        .. new DemonstrationVisits(year).All(), new DemonstrationProbes(year).Probes(),
    ];

    private static BroughtFile Agency() => new("agency.json", FileKind.Agency, Encoding.UTF8.GetBytes("""
        {
          "name": "Tallowfern Education Cooperative",
          "timeZone": "America/Los_Angeles",
          "weekdays": ["Mon", "Tue", "Wed", "Thu", "Fri"],
          "weekStart": "Mon",
          "shortWindow": "inFull",
          "surplus": "eachWindowAlone",
          "tolerancePercent": 5,
          "sessionShare": 100
        }
        """));

    private BroughtFile Terms()
    {
        var table = new Table(FileKind.Terms, "name,first day,last day,kind");
        table.Add("School year", year.FirstDay, year.LastDay, "regular");
        table.Add("Summer", year.ExtendedTerm.First, year.ExtendedTerm.Last, "extended");
        return table.ToFile();
    }

    private BroughtFile Periods()
    {
        var table = new Table(FileKind.Periods, "name,start,end");
        foreach (var (name, start, end) in year.ReportingPeriods())
            table.Add(name, start, end);
        return table.ToFile();
    }

    private BroughtFile Closures()
    {
        var table = new Table(FileKind.Closures, "date,name,kind");
        table.Add(year.StaffDay, "Staff learning day", "published");
        table.Add(year.Storm, "Storm", "unscheduled");
        return table.ToFile();
    }

    private static BroughtFile People()
    {
        var table = new Table(FileKind.People, "email,name,roles,disciplines,credential");
        table.Add(Odalys, "Odalys Ferreira", "provider", "vision;orientation and mobility", "TVI");
        table.Add(Bram, "Bram Nakamura", "provider", "occupational therapy", "OTR/L");
        table.Add(Priya, "Priya Lindqvist", "provider", "physical therapy", "PT, DPT");
        table.Add(Tomasz, "Tomasz Abiolek", "provider", "assistive technology", "ATP");
        table.Add(Marisol, "Marisol Quenby", "provider;case manager", "special education;parent counseling and training", "M.Ed.");
        table.Add(Dele, "Dele Okwarre", "administrator", "", "");
        table.Add(Ines, "Ines Belmares", "family", "", "");
        return table.ToFile();
    }

    private BroughtFile Learners()
    {
        var table = new Table(FileKind.Learners, "code,name,plan start,plan end,case manager,team,family,most minutes a day");
        table.Add("WREN", "Wren Belmares", year.PlanStart, year.PlanEnd, Marisol, $"{Odalys};{Bram};{Priya};{Tomasz};{Marisol}", Ines, 90);
        table.Add("JONAH", "Jonah Tarrow", year.PlanStart, year.PlanEnd, Marisol, $"{Odalys};{Bram};{Priya};{Marisol}", "", 120);
        table.Add("SEFA", "Sefa Lautele", year.PlanStart, year.PlanEnd, Marisol, $"{Odalys};{Tomasz};{Marisol}", "", 40);
        return table.ToFile();
    }

    private BroughtFile Services()
    {
        var table = new Table(FileKind.Services, "code,learner,service,provider,quantity,sessions,every,from,to,place,kind,terms,wording,words,page");
        void Add(string code, string service, string provider, object quantity, object? sessions, string every, string words,
            string kind = "direct", string terms = "regular", string wording = "") =>
            table.Add(code, code.Split('-')[0], service, provider, quantity, sessions, every,
                terms == "extended" ? year.ExtendedTerm.First : year.FirstDay, terms == "extended" ? year.ExtendedTerm.Last : year.LastDay,
                "home", kind, terms, wording, words, "11");
        Add("WREN-V", "vision", Odalys, 60, 2, "week", "Two sessions of 30 minutes a week, individual, at home.");
        Add("WREN-OT", "occupational therapy", Bram, 60, 2, "week", "Two sessions of 30 minutes a week, individual, at home.");
        Add("WREN-PT", "physical therapy", Priya, 1080, null, "plan year", "1,080 minutes over the plan year.");
        Add("WREN-AT", "assistive technology", Tomasz, 30, 1, "week", "One session of 30 minutes a week.");
        Add("WREN-FT", "parent counseling and training", Marisol, 60, null, "period", "60 minutes in each reporting period, with the family.", "parent counseling and training");
        Add("WREN-OM", "orientation and mobility", "", 30, null, "2 weeks", "30 minutes every two weeks.");
        Add("JONAH-V", "vision", Odalys, 1620, null, "plan year", "1,620 minutes over the plan year.");
        Add("JONAH-OT", "occupational therapy", Bram, 90, 3, "week", "Three sessions of 30 minutes a week.");
        Add("JONAH-PT", "physical therapy", Priya, 30, null, "week", "30 minutes a week.");
        Add("JONAH-SL", "speech-language", Marisol, "", null, "month", "Consultation as needed.", "consultation", wording: "as needed");
        Add("SEFA-V", "vision", Odalys, 90, 3, "week", "Three sessions of 30 minutes a week.");
        Add("SEFA-AT", "assistive technology", Tomasz, 30, 1, "week", "One session of 30 minutes a week.");
        Add("SEFA-FT", "parent counseling and training", Marisol, 60, 2, "2 weeks", "Two meetings of 30 minutes every two weeks.", "parent counseling and training");
        Add("SEFA-OM", "orientation and mobility", Odalys, 30, null, "period", "30 minutes in each reporting period.");
        Add("SEFA-SUMMER", "vision", Odalys, 60, 2, "week", "Two sessions of 30 minutes a week in the extended school year.", terms: "extended");
        return table.ToFile();
    }

    private BroughtFile Goals()
    {
        var table = new Table(FileKind.Goals,
            "code,learner,area,statement,measure,better,baseline,target,target date,criterion,probes,every,by,owners,from,to");
        void Add(string code, string area, string statement, int probes, string every, string by, string owners) =>
            table.Add(code, code.Split('-')[0], area, statement, "percent independent", "up", 25, 75, year.LastDay, "3 of 4", probes, every, by, owners, year.FirstDay, year.LastDay);
        Add("WREN-LOOKS", "Looking", "Turns her eyes from the object cue to the object, on both sides.", 1, "week", "each", Odalys);
        Add("WREN-PRESSES", "Hands and switches", "Presses the switch with her elbow within the wait.", 1, "week", "each", $"{Bram};{Tomasz}");
        Add("WREN-HEAD", "Position", "Holds her head up through one step of the routine.", 1, "2 weeks", "each", Priya);
        Add("WREN-MORE", "Communication", "Asks for more in her own way when the fan stops.", 2, "period", "any", $"{Odalys};{Marisol}");
        Add("JONAH-REACHES", "Hands", "Reaches for the towel with either hand.", 1, "week", "each", Bram);
        Add("JONAH-LOOKS", "Looking", "Finds the ribbon among two things.", 1, "2 weeks", "each", Odalys);
        Add("SEFA-CHOOSES", "Communication", "Chooses one of two objects by looking longer at it.", 1, "2 weeks", "each", Odalys);
        return table.ToFile();
    }
}
