using NodaTime;
using NpgsqlTypes;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Testing;

/// <summary>
/// The scenario's team as it stands on Friday 2 October 2026: Wren's visits since August with what life made of them,
/// two other learners who share some of the team. For tests that look at whole pages.
/// </summary>
public sealed class SampleTeam
{
    private static readonly LocalDate Begin = new(2026, 8, 17);
    private static readonly LocalDate End = new(2027, 5, 28);
    private static readonly LocalDate PlannedUpTo = new(2026, 10, 16);
    private readonly TestAgency _agency;
    private readonly DateTimeZone _zone = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];

    private SampleTeam(TestAgency agency) => _agency = agency;

    public static LocalDate Today { get; } = new(2026, 10, 2);
    public PersonRow Odalys { get; private set; } = null!;
    public PersonRow Bram { get; private set; } = null!;
    public PersonRow Priya { get; private set; } = null!;
    public PersonRow Tomasz { get; private set; } = null!;
    public PersonRow Marisol { get; private set; } = null!;
    public PersonRow Ines { get; private set; } = null!;
    public PersonRow Dele { get; private set; } = null!;
    public LearnerRow Wren { get; private set; } = null!;
    public LearnerRow Jonah { get; private set; } = null!;
    public LearnerRow Sefa { get; private set; } = null!;

    /// <summary>Adds the scenario to an agency without learners, whose clock stands on <see cref="Today"/>.</summary>
    public static async Task<SampleTeam> AddAsync(TestAgency agency)
    {
        var team = new SampleTeam(agency);
        await team.AddCalendarAsync();
        await team.AddPeopleAsync();
        await team.AddLearnersAsync();
        await team.AddWrensServicesAsync();
        await team.AddOthersAsync();
        await team.AddGoalsAsync();
        await team.AddTeachingAsync();
        return team;
    }

    private async Task AddCalendarAsync()
    {
        await Add(new TermRow { Name = "School year", FirstDay = Begin, LastDay = End, Kind = TermKind.Regular });
        await Add(new ClosureRow { OnDay = new(2026, 9, 7), Name = "Labor Day", Kind = ClosureKind.Published });
        await Add(new ClosureRow { OnDay = new(2026, 10, 12), Name = "Staff day", Kind = ClosureKind.Published });
        await Add(new PeriodRow { Name = "Period 1", StartDay = Begin, EndDay = new(2026, 10, 16) });
        await Add(new PeriodRow { Name = "Period 2", StartDay = new(2026, 10, 19), EndDay = new(2026, 12, 18) });
        await Add(new PolicyRow { FromDay = Begin, ShortWindow = ShortWindow.Prorated, SessionShare = 100 });
    }

    private async Task AddPeopleAsync()
    {
        Odalys = await Person("Odalys Ferreira", Role.Provider, Discipline.Vision);
        Bram = await Person("Bram Nakamura", Role.Provider, Discipline.OccupationalTherapy);
        Priya = await Person("Priya Lindqvist", Role.Provider, Discipline.PhysicalTherapy);
        Tomasz = await Person("Tomasz Abiolek", Role.Provider, Discipline.AssistiveTechnology);
        Marisol = await Person("Marisol Quenby", Role.CaseManager, Discipline.SpecialEducation, Discipline.ParentCounselingAndTraining);
        await Add(new PersonRoleRow { PersonId = Marisol.Id, Role = Role.Provider, FromDay = Begin });
        Ines = await Person("Ines Belmares", Role.Family);
        Dele = await Person("Dele Okwarre", Role.Administrator);
    }

    private async Task AddLearnersAsync()
    {
        Wren = await Learner("TF-014", "Wren Belmares", Odalys, Bram, Priya, Tomasz);
        Jonah = await Learner("TF-021", "Jonah Tarrow", Odalys, Priya);
        Sefa = await Learner("TF-033", "Sefa Lautele", Bram, Tomasz);
        await Relate(Wren, Ines, Relation.Family);
    }

    private async Task AddWrensServicesAsync()
    {
        var plan = await Plan(Wren);
        var vision = await Service(plan, "V", Discipline.Vision, new(EveryUnit.Week, 1), 60, Odalys, sessions: 2,
            words: "Specially designed instruction in vision: two sessions of 30 minutes weekly, in the home.");
        var occupational = await Service(plan, "OT", Discipline.OccupationalTherapy, new(EveryUnit.Week, 1), 45, Bram,
            words: "Occupational therapy 45 minutes per week, in the home.");
        var physical = await Service(plan, "PT", Discipline.PhysicalTherapy, new(EveryUnit.Week, 2), 60, Priya,
            words: "Physical therapy 60 minutes every two weeks.");
        var technology = await Service(plan, "AT", Discipline.AssistiveTechnology, new(EveryUnit.Month, 1), 60, Tomasz, kind: ServiceKind.Consultation);
        var special = await Service(plan, "SE", Discipline.SpecialEducation, new(EveryUnit.Week, 1), 90, Marisol, sessions: 2);
        var parents = await Service(plan, "PCT", Discipline.ParentCounselingAndTraining, new(EveryUnit.PlanYear, 1), 480, Marisol,
            kind: ServiceKind.ParentCounselingAndTraining);
        await Service(plan, "SL", Discipline.SpeechLanguage, new(EveryUnit.Week, 1), 30, null);

        await Series(vision, Odalys, IsoDayOfWeek.Monday, new(9, 30), 30);
        await Series(vision, Odalys, IsoDayOfWeek.Friday, new(9, 30), 30, (new(2026, 9, 25), VisitOutcome.Planned, null));
        await Series(occupational, Bram, IsoDayOfWeek.Tuesday, new(13, 0), 45,
            (new(2026, 9, 1), VisitOutcome.NotOffered, Reason.ProviderUnwell), (new(2026, 9, 15), VisitOutcome.Offered, Reason.LearnerUnwell),
            (new(2026, 9, 29), VisitOutcome.NotOffered, Reason.ProviderInTrainingOrMeeting));
        await Series(physical, Priya, IsoDayOfWeek.Thursday, new(10, 0), 30, (new(2026, 9, 24), VisitOutcome.NotOffered, Reason.FamilyAskedToMove));
        await Series(special, Marisol, IsoDayOfWeek.Wednesday, new(9, 0), 45);
        await Series(special, Marisol, IsoDayOfWeek.Friday, new(11, 0), 45);
        await Visit(occupational, Bram, new(2026, 9, 4), new(14, 0), 45, VisitOutcome.Given, null, pays: new(2026, 9, 1));
        await Visit(occupational, Bram, new(2026, 10, 8), new(14, 0), 45, VisitOutcome.Planned, null, pays: new(2026, 9, 29));
        await Visit(technology, Tomasz, new(2026, 8, 20), new(15, 0), 60, VisitOutcome.Given, null);
        await Visit(technology, Tomasz, new(2026, 9, 17), new(15, 0), 45, VisitOutcome.Given, null);
        await Visit(parents, Marisol, new(2026, 9, 10), new(17, 0), 60, VisitOutcome.Given, null);
        await Add(new DecisionRow
        {
            LearnerId = Wren.Id,
            ServiceId = occupational.Id,
            OnDay = new(2026, 9, 15),
            Amount = 45,
            Kind = DecisionKind.NotOwed,
            DecidedOn = new(2026, 9, 21),
            DecidedBy = [Marisol.Id, Bram.Id],
            FamilyToldOn = new(2026, 9, 22),
            RecordedBy = Marisol.Id,
        });
    }

    private async Task AddOthersAsync()
    {
        var jonah = await Plan(Jonah);
        await Series(await Service(jonah, "JV", Discipline.Vision, new(EveryUnit.Week, 1), 45, Odalys), Odalys, IsoDayOfWeek.Friday, new(13, 30), 45);
        await Series(await Service(jonah, "JP", Discipline.PhysicalTherapy, new(EveryUnit.Week, 1), 30, Priya), Priya, IsoDayOfWeek.Monday, new(14, 0), 30);
        var sefa = await Plan(Sefa);
        await Series(await Service(sefa, "SO", Discipline.OccupationalTherapy, new(EveryUnit.Week, 1), 30, Bram), Bram, IsoDayOfWeek.Wednesday, new(10, 0), 30);
    }

    private async Task AddGoalsAsync()
    {
        var more = await Goal(1, "Communication", "When the fan stops, Wren presses the switch within ten seconds to ask for more, in 8 of 10 opportunities.",
            Measure.ResponsesOf, byEach: true, Odalys, Marisol);
        await Goal(2, "Hands", "Wren keeps an open hand on the towel for five seconds without help.", Measure.PercentIndependent, byEach: false, Bram);
        await Add(new ObjectiveRow { LearnerId = Wren.Id, GoalId = more.Id, Position = 1, Statement = "Stills when the fan stops.", TargetDay = new(2026, 12, 18) });
        await Add(new ObjectiveRow { LearnerId = Wren.Id, GoalId = more.Id, Position = 2, Statement = "Moves a hand towards the switch.", TargetDay = new(2027, 3, 12) });
        for (var day = new LocalDate(2026, 8, 21); day < new LocalDate(2026, 9, 26); day = day.PlusWeeks(1))
        {
            await Add(new ProbeRow { Id = Guid.CreateVersion7(), LearnerId = Wren.Id, GoalId = more.Id, ProviderId = Odalys.Id, OnDay = day, Value = 3, Opportunities = 10, Kind = ProbeKind.Probe, RecordedBy = Odalys.Id });
            await Add(new ProbeRow { Id = Guid.CreateVersion7(), LearnerId = Wren.Id, GoalId = more.Id, ProviderId = Marisol.Id, OnDay = day.PlusDays(-2), Value = 4, Opportunities = 10, Kind = ProbeKind.Probe, RecordedBy = Marisol.Id });
        }
    }

    private async Task AddTeachingAsync()
    {
        await Teach(TeachPart.Cautions, null, "Swallowing: nothing by mouth without Priya or the mother present.\nFlicker: the fan never stands between Wren and a window.", Marisol);
        await Teach(TeachPart.ShowingThings, Discipline.Vision, "One thing at a time, on her right, at arm's length, against the black cloth. Wait until she has looked before you speak.", Odalys);
        await Teach(TeachPart.Position, Discipline.PhysicalTherapy, "In the wedge chair, feet on the block, head rest on the second notch. Twenty minutes at most.", Priya);
        await Teach(TeachPart.SignalYes, null, "Breathes out long and looks up.", Marisol);
        await Teach(TeachPart.SignalStop, null, "Turns away and closes her hand. Stop at once.", Marisol);
    }

    private async Task<PersonRow> Person(string name, Role role, params Discipline[] disciplines)
    {
        var person = await Add(new PersonRow { Name = name, Email = name.Split(' ')[0].ToLowerInvariant() + "@tallowfern.example" });
        await Add(new PersonRoleRow { PersonId = person.Id, Role = role, FromDay = Begin });
        foreach (var discipline in disciplines)
            await Add(new PersonDisciplineRow { PersonId = person.Id, Discipline = discipline });
        return person;
    }

    private async Task<LearnerRow> Learner(string code, string name, params PersonRow[] team)
    {
        var learner = await Add(new LearnerRow { Code = code, Name = name, MostMinutesADay = 150 });
        foreach (var person in team)
            await Relate(learner, person, Relation.Team);
        await Relate(learner, Marisol, Relation.CaseManager);
        return learner;
    }

    private Task<RelationRow> Relate(LearnerRow learner, PersonRow person, Relation relation) =>
        Add(new RelationRow { LearnerId = learner.Id, PersonId = person.Id, Kind = relation, FromDay = Begin });

    private Task<PlanRow> Plan(LearnerRow learner) => Add(new PlanRow { LearnerId = learner.Id, StartDay = Begin, EndDay = End });

    private async Task<ServiceRow> Service(
        PlanRow plan, string code, Discipline discipline, Every every, int minutes, PersonRow? person,
        int? sessions = null, ServiceKind kind = ServiceKind.Direct, string? words = null)
    {
        var service = await Add(new ServiceRow
        {
            LearnerId = plan.LearnerId,
            PlanId = plan.Id,
            Code = code,
            Position = code.Length,
            Discipline = discipline,
            Kind = kind,
            EveryUnit = every.Unit,
            EveryCount = every.Count,
            FromDay = Begin,
            ToDay = End,
        });
        await Add(new ServiceVersionRow
        {
            LearnerId = plan.LearnerId,
            ServiceId = service.Id,
            Code = code,
            FromDay = Begin,
            Quantity = minutes,
            Sessions = sessions,
            PlanWords = words,
            PlanPage = words is null ? null : "7",
        });
        if (person is not null)
            await Add(new AssignmentRow { LearnerId = plan.LearnerId, ServiceId = service.Id, PersonId = person.Id, FromDay = Begin, ToDay = End });
        return service;
    }

    /// <summary>A visit a week, given up to yesterday, but for what is said of single days.</summary>
    private async Task Series(
        ServiceRow service, PersonRow person, IsoDayOfWeek weekday, LocalTime start, int minutes,
        params (LocalDate Day, VisitOutcome Outcome, Reason? Reason)[] otherwise)
    {
        for (var day = Begin.PlusDays(-1).Next(weekday); day <= PlannedUpTo; day = day.PlusWeeks(1))
        {
            if (day == new LocalDate(2026, 9, 7) || day == new LocalDate(2026, 10, 12))
                continue;
            var found = Array.Find(otherwise, o => o.Day == day);
            var (outcome, reason) = found.Day == day ? (found.Outcome, found.Reason) : (day < Today ? VisitOutcome.Given : VisitOutcome.Planned, null);
            await Visit(service, person, day, start, minutes, outcome, reason);
        }
    }

    private async Task Visit(
        ServiceRow service, PersonRow person, LocalDate day, LocalTime start, int minutes, VisitOutcome outcome, Reason? reason, LocalDate? pays = null)
    {
        var (from, to) = WallTime.Span(day + start, minutes, _zone);
        var visit = await Add(new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = service.LearnerId,
            ServiceId = service.Id,
            ProviderId = person.Id,
            OnDay = day,
            StartTime = start,
            Minutes = minutes,
            Zone = _zone.Id,
            During = new NpgsqlRange<Instant>(from, true, to, false),
            PaysOn = pays,
            State = outcome == VisitOutcome.Planned ? VisitState.Planned : VisitState.Logged,
            TakesTime = outcome != VisitOutcome.NotOffered,
            LearnersTime = service.Kind == ServiceKind.Direct,
        });
        if (outcome == VisitOutcome.Planned)
            return;
        await Add(new SessionRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = service.LearnerId,
            ServiceId = service.Id,
            VisitId = visit.Id,
            ProviderId = person.Id,
            OnDay = day,
            PaysOn = pays,
            Outcome = outcome,
            StartTime = start,
            EndTime = start.PlusMinutes(minutes),
            Credited = outcome == VisitOutcome.Given ? minutes : 0,
            Observed = true,
            Reason = reason,
            RecordedBy = person.Id,
        });
    }

    private async Task<GoalRow> Goal(int position, string area, string statement, Measure measure, bool byEach, params PersonRow[] owners)
    {
        var plan = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => Task.FromResult(db.Plans.First(p => p.LearnerId == Wren.Id)));
        var goal = await Add(new GoalRow
        {
            LearnerId = Wren.Id,
            PlanId = plan.Id,
            Code = $"G{position}",
            Position = position,
            Area = area,
            Statement = statement,
            Measure = measure,
            Baseline = 1,
            Target = 8,
            TargetDay = new(2027, 5, 14),
            CriterionDays = 3,
            CriterionOf = 4,
            FromDay = Begin,
            ToDay = End,
        });
        await Add(new ProbeCommitmentRow { LearnerId = Wren.Id, GoalId = goal.Id, FromDay = Begin, Probes = 1, EveryUnit = EveryUnit.Week, ByEach = byEach });
        foreach (var owner in owners)
            await Add(new GoalOwnerRow { LearnerId = Wren.Id, GoalId = goal.Id, PersonId = owner.Id, FromDay = Begin, ToDay = End });
        return goal;
    }

    private Task<TeachPartRow> Teach(TeachPart part, Discipline? owner, string text, PersonRow by) =>
        Add(new TeachPartRow { LearnerId = Wren.Id, Part = part, Owner = owner, Text = text, WrittenOn = new(2026, 8, 24), WrittenBy = by.Id });

    private Task<T> Add<T>(T row) where T : class, Data.IAgencyRow => _agency.AddAsync(row);
}
