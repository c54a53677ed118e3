using Microsoft.EntityFrameworkCore;
using NodaTime;
using NpgsqlTypes;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Family;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Moves;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Rights;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Things;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Family;
using TeamCircle.Data.Import;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Monitoring;
using TeamCircle.Data.Moves;
using TeamCircle.Data.Papers;
using TeamCircle.Data.People;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Reports;
using TeamCircle.Data.Rights;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Things;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Access;

/// <summary>One of everything that an address can name, all of one learner.</summary>
/// <param name="Others">What a second part of an address names, by its name there: an assignment, a closure of the agency.</param>
public sealed record WrensRecord(LearnerRow Learner, int Service, int Goal, Guid Visit, Guid LoggedVisit, Guid Session, Guid Probe, Guid Practice, int Decision, IReadOnlyDictionary<string, int> Others)
{
    /// <summary>Stands in a note for staff and must never be on a family's page.</summary>
    public const string StaffOnly = "canary of the staff";

    /// <summary>An id of that kind that is Wren's.</summary>
    public string IdOf(Subject subject) => subject switch
    {
        Subject.Learner => $"{Learner.Id}",
        Subject.Service => $"{Service}",
        Subject.Goal => $"{Goal}",
        Subject.Visit => $"{Visit}",
        Subject.Session => $"{Session}",
        Subject.Probe => $"{Probe}",
        Subject.Practice => $"{Practice}",
        Subject.Decision => $"{Decision}",
        Subject.Routine => $"{Others["routine"]}",
        Subject.Report => $"{Others["report"]}",
        _ => "",
    };

    /// <summary>An id of that kind that nobody has.</summary>
    public static string AbsentIdOf(Subject subject) =>
        subject is Subject.Visit or Subject.Session or Subject.Probe or Subject.Practice ? "0190b000-0000-7000-8000-000000000000" : "99999999";

    private static readonly LocalDate First = new(2026, 8, 17), Last = new(2027, 5, 28);

    /// <summary>A term, a reporting period and a policy, without which nothing can be worked out.</summary>
    public static async Task AddCalendarAsync(TestAgency agency)
    {
        await agency.AddAsync(new TermRow { Name = "School year", FirstDay = First, LastDay = Last });
        await agency.AddAsync(new PeriodRow { Name = "Period 1", StartDay = First, EndDay = new LocalDate(2026, 10, 16) });
        await agency.AddAsync(new PolicyRow { FromDay = new LocalDate(2026, 8, 1) });
    }

    public static async Task<WrensRecord> AddAsync(TestAgency agency, LearnerRow wren, int provider, int manager)
    {
        var (first, last) = (First, Last);
        var plan = await agency.AddAsync(new PlanRow { LearnerId = wren.Id, StartDay = first, EndDay = last });
        var service = await agency.AddAsync(new ServiceRow
        {
            LearnerId = wren.Id,
            PlanId = plan.Id,
            Code = "OT-1",
            Discipline = Discipline.OccupationalTherapy,
            EveryUnit = EveryUnit.Week,
            FromDay = first,
            ToDay = last,
        });
        await agency.AddAsync(new ServiceVersionRow { LearnerId = wren.Id, ServiceId = service.Id, Code = "OT-1", FromDay = first, Quantity = 60, PlanWords = "60 minutes a week" });
        var assignment = await agency.AddAsync(new AssignmentRow { LearnerId = wren.Id, ServiceId = service.Id, PersonId = provider, FromDay = first, ToDay = last });
        var goal = await agency.AddAsync(new GoalRow
        {
            LearnerId = wren.Id,
            PlanId = plan.Id,
            Code = "G-1",
            Area = "Hands",
            Statement = "Presses the switch after the object cue.",
            FromDay = first,
            ToDay = last,
        });
        await agency.AddAsync(new ProbeCommitmentRow { LearnerId = wren.Id, GoalId = goal.Id, FromDay = first, Probes = 1, EveryUnit = EveryUnit.Week });
        var owner = await agency.AddAsync(new GoalOwnerRow { LearnerId = wren.Id, GoalId = goal.Id, PersonId = provider, FromDay = first, ToDay = last });
        var planned = await agency.AddAsync(VisitOf(wren, service, provider, new LocalDate(2026, 10, 2), VisitState.Planned));
        var logged = await agency.AddAsync(VisitOf(wren, service, provider, new LocalDate(2026, 9, 25), VisitState.Logged));
        var session = await agency.AddAsync(SessionOf(logged));
        var probe = await agency.AddAsync(new ProbeRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = wren.Id,
            GoalId = goal.Id,
            ProviderId = provider,
            OnDay = logged.OnDay,
            Value = 50,
            Opportunities = 8,
            Conditions = StaffOnly,
        });
        var decision = await agency.AddAsync(new DecisionRow
        {
            LearnerId = wren.Id,
            ServiceId = service.Id,
            OnDay = new LocalDate(2026, 9, 2),
            Amount = 30,
            Kind = DecisionKind.NotOwed,
            DecidedOn = new LocalDate(2026, 9, 10),
            DecidedBy = [manager],
            Note = StaffOnly,
        });
        var relation = await agency.AddAsync(new RelationRow { LearnerId = wren.Id, PersonId = manager, Kind = Relation.Team, FromDay = first });
        var closure = await agency.AddAsync(new ClosureRow { OnDay = new LocalDate(2026, 11, 26), Name = "Autumn break" });
        var policy = await agency.AddAsync(new PolicyRow { FromDay = new LocalDate(2027, 1, 4) });
        var routine = await agency.AddAsync(new RoutineRow { LearnerId = wren.Id, Name = "Warm towel hello" });
        var picture = await agency.AddAsync(new RoutinePictureRow { LearnerId = wren.Id, RoutineId = routine.Id, Kind = PictureKind.Cue, Jpeg = [0xFF, 0xD8], Width = 1, Height = 1, Words = "the towel" });
        var hold = await agency.AddAsync(new HoldRow { LearnerId = wren.Id, RoutineId = routine.Id, Reason = StaffOnly, SetBy = provider, SetAt = Instant.FromUtc(2026, 10, 1, 16, 0) });
        var sampled = await AddSampleAsync(agency, wren, manager);
        var recordHold = await agency.AddAsync(new RecordHoldRow { LearnerId = wren.Id, FromDay = new LocalDate(2026, 8, 17), ToDay = new LocalDate(2026, 8, 18), Reason = StaffOnly, SetBy = manager });
        return new WrensRecord(wren, service.Id, goal.Id, planned.Id, logged.Id, session.Id, probe.Id, (await AddPracticeAsync(agency, routine, provider)).Id, decision.Id, new Dictionary<string, int>
        {
            ["plan"] = plan.Id,
            ["service"] = service.Id,
            ["goal"] = goal.Id,
            ["assignment"] = assignment.Id,
            ["owner"] = owner.Id,
            ["relation"] = relation.Id,
            ["closure"] = closure.Id,
            ["policy"] = policy.Id,
            ["routine"] = routine.Id,
            ["picture"] = picture.Id,
            ["hold"] = hold.Id,
            ["period"] = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Periods.Select(p => p.Id).FirstAsync()),
            ["edition"] = 1,
            ["report"] = await AddReportAsync(agency, goal, provider, manager),
            ["part"] = 0,
            ["summary"] = await AddSummaryAsync(agency, wren, manager),
            ["request"] = (await agency.AddAsync(new RecordRequestRow { LearnerId = wren.Id, Kind = RequestKind.Amend, ReceivedOn = new(2026, 9, 1), AskedBy = "Ines Belmares", Words = StaffOnly, EnteredBy = manager })).Id,
            ["debt"] = (await agency.AddAsync(new DebtRow { LearnerId = wren.Id, ServiceId = service.Id, OnDay = First.PlusDays(-1), Since = First.PlusDays(-1), Undecided = 45 })).Id,
            ["award"] = (await agency.AddAsync(new AwardRow { LearnerId = wren.Id, ServiceId = service.Id, Discipline = service.Discipline, Paper = StaffOnly, Amount = 120, FromDay = First })).Id,
            ["date"] = (await agency.AddAsync(new BoundDateRow { LearnerId = wren.Id, Kind = BoundKind.Orders, DueOn = new(2026, 10, 20), RestsOn = StaffOnly, EnteredBy = manager })).Id,
            ["meeting"] = (await agency.AddAsync(new MeetingRow { LearnerId = wren.Id, OnDay = new(2026, 10, 28), FamilyBy = new(2026, 10, 21), About = StaffOnly, Content = new PackContent(First, First, Last, [], [], [], [], [], []).Write(), MadeBy = manager })).Id,
            ["delivery"] = (await agency.AddAsync(new DeliveryRow { LearnerId = wren.Id, Paper = PaperKind.PriorNotice, About = StaffOnly, SentOn = new(2026, 9, 30), Way = DeliveryWay.Handed, Language = "English", ToWhom = "her mother", SentBy = manager })).Id,
            ["thing"] = (await agency.AddAsync(new ThingRow { LearnerId = wren.Id, Kind = ThingKind.Device, Name = StaffOnly, OwnerId = provider, PromisedOn = First, EnteredBy = manager })).Id,
            ["import"] = (await agency.AddAsync(new ImportRow { PersonId = manager, Files = "[]" })).Id,
            ["recordHold"] = recordHold.Id,
            ["sample"] = sampled.SampleId,
            ["file"] = sampled.Id,
            ["person"] = (await agency.AddAsync(new LastDayRow { PersonId = provider, Day = new(2027, 4, 30), SetBy = manager })).PersonId,
            ["transfer"] = await AddTransferAsync(agency, wren, manager),
        });
    }

    /// <summary>A file for an agency that the learner goes to, and how the learner came.</summary>
    private static async Task<int> AddTransferAsync(TestAgency agency, LearnerRow wren, int manager)
    {
        await agency.AddAsync(new MoveInRow { LearnerId = wren.Id, FromWhere = StaffOnly, FirstDay = First, EnteredBy = manager });
        var move = await agency.AddAsync(new MoveOutRow
        {
            LearnerId = wren.Id,
            LastDay = Last,
            ToWhere = StaffOnly,
            GroundWords = StaffOnly,
            ReadUntil = Last.PlusDays(30),
            Works = StaffOnly,
            SetBy = manager,
        });
        var content = new TransferContent { Learner = wren.Name, Code = wren.Code, AsOf = First, LastDay = Last, ToWhere = StaffOnly, Works = StaffOnly };
        return (await agency.AddAsync(new TransferFileRow { LearnerId = wren.Id, MoveOutId = move.Id, Content = content.Write(), MadeBy = manager, MadeAt = Instant.FromUtc(2026, 10, 1, 16, 0) })).Id;
    }

    /// <summary>A published summary; a draft and what somebody told by word of mouth beside it are for staff.</summary>
    private static async Task<int> AddSummaryAsync(TestAgency agency, LearnerRow wren, int manager)
    {
        FamilySummaryRow Row(string words) => new()
        {
            LearnerId = wren.Id,
            FirstDay = new(2026, 8, 17),
            LastDay = new(2026, 9, 30),
            BegunBy = manager,
            Content = new SummaryContent(new(words), new(), new(words), new(), new(), []).Write(),
        };
        await agency.AddAsync(Row(StaffOnly));
        await agency.AddAsync(new FamilyRemarkRow { LearnerId = wren.Id, Kind = RemarkKind.Other, Words = StaffOnly, SaidBy = "the other home", SaidOn = new(2026, 9, 1), EnteredBy = manager });
        var published = Row("She chose the blue cup.");
        (published.PublishedBy, published.PublishedAt) = (manager, Instant.FromUtc(2026, 10, 1, 16, 0));
        return (await agency.AddAsync(published)).Id;
    }

    /// <summary>A report that was shared, with a paragraph that only the owners read.</summary>
    private static async Task<int> AddReportAsync(TestAgency agency, GoalRow goal, int provider, int manager)
    {
        var period = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Periods.Select(p => p.Id).FirstAsync());
        var report = await agency.AddAsync(new ReportRow
        {
            LearnerId = goal.LearnerId,
            PeriodId = period,
            BegunBy = provider,
            Hash = new string('0', 64),
            FinishedBy = manager,
            FinishedAt = Instant.FromUtc(2026, 10, 1, 16, 0),
            SharedBy = manager,
            SharedAt = Instant.FromUtc(2026, 10, 1, 17, 0),
        });
        await agency.AddAsync(new ReportGoalRow { LearnerId = goal.LearnerId, ReportId = report.Id, GoalId = goal.Id });
        await agency.AddAsync(new ReportPartRow { LearnerId = goal.LearnerId, ReportId = report.Id, GoalId = goal.Id, PersonId = provider, Words = StaffOnly });
        return report.Id;
    }

    private static async Task<SampleFileRow> AddSampleAsync(TestAgency agency, LearnerRow wren, int manager)
    {
        var period = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Periods.Select(p => p.Id).FirstAsync());
        var sample = await agency.AddAsync(new SampleRow { PeriodId = period, Seed = 7, Population = 1, DrawnBy = manager });
        return await agency.AddAsync(new SampleFileRow { SampleId = sample.Id, LearnerId = wren.Id, Position = 1 });
    }

    private static async Task<PracticeRow> AddPracticeAsync(TestAgency agency, RoutineRow routine, int provider)
    {
        var version = await agency.AddAsync(new RoutineVersionRow
        {
            LearnerId = routine.LearnerId,
            RoutineId = routine.Id,
            Number = 1,
            Content = new Core.Routines.RoutineContent().Write(),
            WrittenBy = provider,
            WrittenAt = Instant.FromUtc(2026, 9, 1, 12, 0),
        });
        var record = new PracticeRecord
        {
            Id = Guid.CreateVersion7(),
            Routine = routine.Id,
            Version = version.Id,
            Entry = PracticeEntry.Live,
            StartedAt = Instant.FromUtc(2026, 9, 25, 16, 0),
            EndedAt = Instant.FromUtc(2026, 9, 25, 16, 10),
        };
        return await agency.AddAsync(new PracticeRow
        {
            Id = record.Id,
            LearnerId = routine.LearnerId,
            RoutineId = routine.Id,
            VersionId = version.Id,
            ProviderId = provider,
            StartedAt = record.StartedAt,
            EndedAt = record.EndedAt,
            OnDay = new LocalDate(2026, 9, 25),
            Record = PracticeJson.Write(record),
        });
    }

    private static VisitRow VisitOf(LearnerRow wren, ServiceRow service, int provider, LocalDate day, VisitState state)
    {
        const string zone = "America/Los_Angeles";
        var start = day.At(new LocalTime(9, 0)).InZoneLeniently(DateTimeZoneProviders.Tzdb[zone]).ToInstant();
        return new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = wren.Id,
            ServiceId = service.Id,
            ProviderId = provider,
            OnDay = day,
            StartTime = new LocalTime(9, 0),
            Minutes = 60,
            Zone = zone,
            During = new NpgsqlRange<Instant>(start, true, start + Duration.FromMinutes(60), false),
            PlannedStart = new LocalTime(9, 0),
            PlannedMinutes = 60,
            State = state,
            LearnersTime = true,
        };
    }

    private static SessionRow SessionOf(VisitRow visit) => new()
    {
        Id = Guid.CreateVersion7(),
        LearnerId = visit.LearnerId,
        ServiceId = visit.ServiceId!.Value,
        VisitId = visit.Id,
        ProviderId = visit.ProviderId,
        OnDay = visit.OnDay,
        Outcome = VisitOutcome.Given,
        StartTime = visit.StartTime,
        EndTime = new LocalTime(10, 0),
        Credited = 60,
        Observed = true,
        Note = StaffOnly,
    };
}
