using System.Data;
using System.Globalization;
using CsvHelper;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>Writes the files of the demonstration world as rows.</summary>
internal sealed class WorldRows
{
    private readonly TestAgency _agency;
    private readonly PortalDb _db;
    private readonly Dictionary<string, int> _people = [];
    private readonly Dictionary<string, LearnerRow> _learners = [];
    private readonly Dictionary<string, PlanRow> _plans = [];
    private readonly Dictionary<string, ServiceRow> _services = [];
    private readonly Dictionary<string, GoalRow> _goals = [];

    private WorldRows(TestAgency agency, PortalDb db) => (_agency, _db) = (agency, db);

    public static string File(string name) => Path.Combine(AppContext.BaseDirectory, "Commitments", "World", name);

    public static async Task WriteAsync(TestAgency agency)
    {
        await using var work = await agency.Portal.OpenAsync(agency.WholeAgency, IsolationLevel.ReadCommitted);
        var rows = new WorldRows(agency, work.Db);
        rows.AddCalendar();
        await work.Db.SaveChangesAsync();
        await rows.AddPeopleAsync();
        await rows.AddServicesAsync();
        await rows.AddGoalsAsync();
        rows.AddVisits();
        rows.AddProbes();
        rows.AddDecisions();
        await work.Db.SaveChangesAsync();
        await work.CommitAsync();
    }

    private void AddCalendar()
    {
        foreach (var r in Read("terms.csv"))
            Add(new TermRow { Name = r["name"], FirstDay = Day(r["first day"]), LastDay = Day(r["last day"]), Kind = Words.Find<TermKind>(r["kind"])!.Value });
        foreach (var r in Read("periods.csv"))
            Add(new PeriodRow { Name = r["name"], StartDay = Day(r["start"]), EndDay = Day(r["end"]) });
        Add(new ClosureRow { OnDay = new(2026, 9, 9), Name = "Storm", Kind = ClosureKind.Unscheduled });
        foreach (var day in new LocalDate[] { new(2026, 9, 7), new(2026, 9, 25), new(2026, 9, 28) })
            Add(new ClosureRow { OnDay = day, Name = "Closed", Kind = ClosureKind.Published });
        Add(new PolicyRow { FromDay = new(2026, 8, 17), ShortWindow = ShortWindow.InFull, Surplus = Surplus.EachWindowAlone });
    }

    private async Task AddPeopleAsync()
    {
        foreach (var r in Read("people.csv"))
        {
            var person = Add(new PersonRow { Email = r["email"], Name = r["name"] });
            await _db.SaveChangesAsync();
            _people[person.Email] = person.Id;
        }
        foreach (var r in Read("learners.csv"))
        {
            var learner = _learners[r["code"]] = Add(new LearnerRow { Code = r["code"], Name = r["name"], MostMinutesADay = Int(r["most minutes a day"]) });
            await _db.SaveChangesAsync();
            _plans[learner.Code] = Add(new PlanRow { LearnerId = learner.Id, StartDay = Day(r["plan start"]), EndDay = Day(r["plan end"]) });
            await _db.SaveChangesAsync();
        }
    }

    private async Task AddServicesAsync()
    {
        foreach (var r in Read("services.csv"))
        {
            var first = r["continues"] == "" ? await AddServiceAsync(r) : _services[r["continues"]];
            first.ToDay = Day(r["to"]);
            _services[r["code"]] = first;
            Add(new ServiceVersionRow
            {
                LearnerId = first.LearnerId,
                ServiceId = first.Id,
                Code = r["code"],
                FromDay = Day(r["from"]),
                Quantity = Int(r["quantity"]),
                Sessions = r["sessions"] == "" ? null : Int(r["sessions"]),
            });
            Add(new AssignmentRow
            {
                LearnerId = first.LearnerId,
                ServiceId = first.Id,
                PersonId = _people[r["provider"]],
                FromDay = Day(r["from"]),
                ToDay = Day(r["to"]),
            });
        }
        await _db.SaveChangesAsync();
    }

    private async Task<ServiceRow> AddServiceAsync(Dictionary<string, string> r)
    {
        var learner = _learners[r["learner"]];
        var every = Every(r["every"]);
        var row = Add(new ServiceRow
        {
            LearnerId = learner.Id,
            PlanId = _plans[learner.Code].Id,
            Code = r["code"],
            Discipline = Words.Find<Discipline>(r["service"])!.Value,
            Kind = Words.Find<ServiceKind>(r["kind"])!.Value,
            Place = Words.Find<Place>(r["place"])!.Value,
            EveryUnit = every.Unit,
            EveryCount = every.Count,
            FromDay = Day(r["from"]),
            ToDay = Day(r["to"]),
        });
        await _db.SaveChangesAsync();
        return row;
    }

    private async Task AddGoalsAsync()
    {
        foreach (var r in Read("goals.csv"))
        {
            var learner = _learners[r["learner"]];
            var goal = _goals[r["code"]] = Add(new GoalRow
            {
                LearnerId = learner.Id,
                PlanId = _plans[learner.Code].Id,
                Code = r["code"],
                Area = r["area"],
                Statement = r["statement"],
                FromDay = Day(r["from"]),
                ToDay = Day(r["to"]),
            });
            await _db.SaveChangesAsync();
            var every = Every(r["every"]);
            Add(new ProbeCommitmentRow
            {
                LearnerId = learner.Id,
                GoalId = goal.Id,
                FromDay = goal.FromDay,
                Probes = Int(r["probes"]),
                EveryUnit = every.Unit,
                EveryCount = every.Count,
                ByEach = r["by"] == "each",
            });
            Add(new GoalOwnerRow { LearnerId = learner.Id, GoalId = goal.Id, PersonId = _people[r["owners"]], FromDay = goal.FromDay, ToDay = goal.ToDay });
        }
    }

    private void AddVisits()
    {
        foreach (var r in Read("visits.csv"))
        {
            var service = _services[r["service"]];
            var (start, end) = (Time(r["start"]), Time(r["end"]));
            var minutes = (int)Period.Between(start, end, PeriodUnits.Minutes).Minutes;
            var outcome = Words.Find<VisitOutcome>(r["outcome"])!.Value;
            LocalDate? pays = r["makes up for"] == "" ? null : Day(r["makes up for"]);
            var (from, to) = WallTime.Span(Day(r["date"]).At(start), minutes, DateTimeZoneProviders.Tzdb["America/Los_Angeles"]);
            var visit = Add(new VisitRow
            {
                Id = Guid.CreateVersion7(),
                LearnerId = service.LearnerId,
                ServiceId = service.Id,
                ProviderId = _people[r["provider"]],
                OnDay = Day(r["date"]),
                StartTime = start,
                Minutes = minutes,
                Zone = "America/Los_Angeles",
                During = new(from, true, to, false),
                PaysOn = pays,
                State = outcome == VisitOutcome.Planned ? VisitState.Planned : VisitState.Logged,
                TakesTime = outcome != VisitOutcome.NotOffered,
                LearnersTime = service.Kind == ServiceKind.Direct,
            });
            if (outcome != VisitOutcome.Planned)
                Add(Session(visit, outcome, end, r["reason"]));
        }
    }

    private static SessionRow Session(VisitRow visit, VisitOutcome outcome, LocalTime end, string reason) => new()
    {
        Id = Guid.CreateVersion7(),
        LearnerId = visit.LearnerId,
        ServiceId = visit.ServiceId,
        VisitId = visit.Id,
        ProviderId = visit.ProviderId,
        OnDay = visit.OnDay,
        PaysOn = visit.PaysOn,
        Outcome = outcome,
        StartTime = visit.StartTime,
        EndTime = end,
        Credited = outcome == VisitOutcome.Given ? visit.Minutes : 0,
        Reason = reason == "" ? null : Words.Find<Reason>(reason),
    };

    private void AddProbes()
    {
        foreach (var r in Read("probes.csv"))
        {
            Add(new ProbeRow
            {
                Id = Guid.CreateVersion7(),
                LearnerId = _goals[r["goal"]].LearnerId,
                GoalId = _goals[r["goal"]].Id,
                ProviderId = _people[r["provider"]],
                OnDay = Day(r["date"]),
                Value = Int(r["value"]),
                Kind = Words.Find<ProbeKind>(r["kind"])!.Value,
            });
        }
    }

    private void AddDecisions()
    {
        foreach (var r in Read("decisions.csv"))
        {
            Add(new DecisionRow
            {
                LearnerId = _services[r["service"]].LearnerId,
                ServiceId = _services[r["service"]].Id,
                OnDay = Day(r["date"]),
                Amount = Int(r["amount"]),
                Kind = Words.Find<DecisionKind>(r["decision"])!.Value,
                DecidedOn = Day(r["decided on"]),
                DecidedBy = [_people[r["by"]]],
            });
        }
    }

    private T Add<T>(T row) where T : class, IAgencyRow
    {
        row.AgencyId = _agency.Id;
        _db.Add(row);
        return row;
    }

    private static Every Every(string words) => words switch
    {
        "week" => new(EveryUnit.Week, 1),
        "2 weeks" => new(EveryUnit.Week, 2),
        "month" => new(EveryUnit.Month, 1),
        "period" => new(EveryUnit.Period, 1),
        _ => new(EveryUnit.PlanYear, 1),
    };

    private static LocalDate Day(string text) => LocalDatePattern.Iso.Parse(text).Value;

    private static LocalTime Time(string text) => LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(text).Value;

    private static int Int(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private static List<Dictionary<string, string>> Read(string file)
    {
        using var csv = new CsvReader(new StreamReader(File(file)), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read())
            rows.Add(csv.HeaderRecord!.ToDictionary(h => h, h => csv.GetField(h) ?? ""));
        return rows;
    }
}
