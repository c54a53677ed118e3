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
    public const string Runa = "runa@tallowfern.example";
    public const string Joss = "joss@tallowfern.example";
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
        table.Add(Runa, "Runa Castell", "provider", "vision", "TVI");
        table.Add(Joss, "Joss Ahlgren", "provider", "", "COTA");
        table.Add(Dele, "Dele Okwarre", "administrator", "", "");
        table.Add(Ines, "Ines Belmares", "family", "", "");
        return table.ToFile();
    }

    private BroughtFile Learners()
    {
        var table = new Table(FileKind.Learners, "code,name,plan start,plan end,case manager,team,family,most minutes a day");
        table.Add("TF07", "Wren Belmares", year.PlanStart, year.PlanEnd, Marisol, $"{Odalys};{Bram};{Priya};{Tomasz};{Marisol}", Ines, 90);
        table.Add("TF12", "Jonah Tarrow", year.PlanStart, year.PlanEnd, Marisol, $"{Odalys};{Bram};{Priya};{Marisol}", "", 120);
        table.Add("TF19", "Sefa Lautele", year.PlanStart, year.PlanEnd, Marisol, $"{Odalys};{Tomasz};{Marisol}", "", 40);
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
        Add("TF07-V", "vision", Odalys, 60, 2, "week", "Two sessions of 30 minutes a week, individual, at home.");
        Add("TF07-OT", "occupational therapy", Bram, 60, 2, "week", "Two sessions of 30 minutes a week, individual, at home.");
        Add("TF07-PT", "physical therapy", Priya, 1080, null, "plan year", "1,080 minutes over the plan year.");
        Add("TF07-AT", "assistive technology", Tomasz, 30, 1, "week", "One session of 30 minutes a week.");
        Add("TF07-FT", "parent counseling and training", Marisol, 60, null, "period", "60 minutes in each reporting period, with the family.", "parent counseling and training");
        Add("TF07-OM", "orientation and mobility", "", 30, null, "2 weeks", "30 minutes every two weeks.");
        Add("TF12-V", "vision", Odalys, 1620, null, "plan year", "1,620 minutes over the plan year.");
        Add("TF12-OT", "occupational therapy", Bram, 90, 3, "week", "Three sessions of 30 minutes a week.");
        Add("TF12-PT", "physical therapy", Priya, 30, null, "week", "30 minutes a week.");
        Add("TF12-SL", "speech-language", Marisol, "", null, "month", "Consultation as needed.", "consultation", wording: "as needed");
        Add("TF19-V", "vision", Odalys, 90, 3, "week", "Three sessions of 30 minutes a week.");
        Add("TF19-AT", "assistive technology", Tomasz, 30, 1, "week", "One session of 30 minutes a week.");
        Add("TF19-FT", "parent counseling and training", Marisol, 60, 2, "2 weeks", "Two meetings of 30 minutes every two weeks.", "parent counseling and training");
        Add("TF19-OM", "orientation and mobility", Odalys, 30, null, "period", "30 minutes in each reporting period.");
        Add("TF19-SUMMER", "vision", Odalys, 60, 2, "week", "Two sessions of 30 minutes a week in the extended school year.", terms: "extended");
        return table.ToFile();
    }

    private BroughtFile Goals()
    {
        var table = new Table(FileKind.Goals,
            "code,learner,area,statement,measure,better,baseline,target,target date,criterion,probes,every,by,owners,from,to");
        void Add(string code, string area, string statement, int probes, string every, string by, string owners) =>
            table.Add(code, code.Split('-')[0], area, statement, "percent independent", "up", 25, 75, year.LastDay, "3 of 4", probes, every, by, owners, year.FirstDay, year.LastDay);
        Add("TF07-LOOKS", "Looking", "Turns her eyes from the object cue to the object, on both sides.", 2, "week", "any", $"{Odalys};{Priya};{Marisol}");
        Add("TF07-PRESSES", "Hands and switches", "Presses the switch with her elbow within the wait.", 1, "week", "each", $"{Bram};{Tomasz}");
        Add("TF07-HEAD", "Position", "Holds her head up through one step of the routine.", 1, "2 weeks", "each", Priya);
        Add("TF07-MORE", "Communication", "Asks for more in her own way when the fan stops.", 2, "period", "any", $"{Odalys};{Marisol}");
        Add("TF12-REACHES", "Hands", "Reaches for the towel with either hand.", 1, "week", "each", Bram);
        Add("TF12-LOOKS", "Looking", "Finds the ribbon among two things.", 1, "2 weeks", "each", Odalys);
        Add("TF19-CHOOSES", "Communication", "Chooses one of two objects by looking longer at it.", 1, "2 weeks", "each", Odalys);
        return table.ToFile();
    }
}
