using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Testing;

/// <summary>
/// A small team in a test agency: Wren and Jonah, their providers Odalys and Bram, the case manager Marisol, Wren's mother
/// Ines, and Priya, who works with neither. One term, one reporting period, a service and a goal each.
/// </summary>
public sealed class TestTeam
{
    private static readonly LocalDate First = new(2026, 8, 17), Last = new(2027, 5, 6);

    private readonly TestAgency _agency;
    private readonly Dictionary<int, int> _plans = [];
    private int _codes;

    private TestTeam(TestAgency agency) => _agency = agency;

    public int Wren { get; private set; }
    public int Jonah { get; private set; }
    public int Odalys { get; private set; }
    public int Bram { get; private set; }
    public int Marisol { get; private set; }
    public int Ines { get; private set; }
    public int Priya { get; private set; }
    public PeriodRow Period { get; private set; } = null!;

    /// <summary>Wren's vision service at home, 60 minutes a week, given by Odalys.</summary>
    public ServiceRow Vision { get; private set; } = null!;

    /// <summary>Wren's goal, probed once a week by Odalys.</summary>
    public GoalRow Gaze { get; private set; } = null!;

    public static async Task<TestTeam> CreateAsync(TestAgency agency)
    {
        var team = new TestTeam(agency);
        await agency.AddAsync(new TermRow { Name = "Year", FirstDay = First, LastDay = new(2027, 5, 28), Kind = TermKind.Regular });
        team.Period = await agency.AddAsync(new PeriodRow { Name = "Period 1", StartDay = First, EndDay = new(2026, 10, 16) });
        team.Wren = await team.LearnerAsync("WREN", "Wren Belmares");
        team.Jonah = await team.LearnerAsync("JONAH", "Jonah Tarrow");
        team.Odalys = await team.PersonAsync("Odalys Ferreira", Role.Provider, Relation.Team, team.Wren, team.Jonah);
        team.Bram = await team.PersonAsync("Bram Nakamura", Role.Provider, Relation.Team, team.Wren, team.Jonah);
        team.Marisol = await team.PersonAsync("Marisol Quenby", Role.CaseManager, Relation.CaseManager, team.Wren);
        team.Ines = await team.PersonAsync("Ines Belmares", Role.Family, Relation.Family, team.Wren);
        team.Priya = await team.PersonAsync("Priya Lindqvist", Role.Provider, Relation.Team);
        team.Vision = await team.ServiceAsync(team.Wren, Discipline.Vision, team.Odalys);
        team.Gaze = await team.GoalAsync(team.Wren, team.Odalys);
        return team;
    }

    public async Task<Caller> CallerAsync(int person) => (await _agency.CallerAsync(person))!;

    public async Task<int> PersonAsync(string name, Role role, Relation relation, params int[] learners)
    {
        var email = $"{name.Split(' ')[0]}@tallowfern.example".ToLowerInvariant();
        var person = await _agency.AddAsync(new PersonRow { Email = email, Name = name });
        await _agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = role, FromDay = First });
        foreach (var learner in learners)
            await _agency.AddAsync(new RelationRow { PersonId = person.Id, LearnerId = learner, Kind = relation, FromDay = First });
        return person.Id;
    }

    public async Task<ServiceRow> ServiceAsync(
        int learner, Discipline discipline, int? provider, CoTreatment coTreatment = CoTreatment.None,
        ServiceKind kind = ServiceKind.Direct, int? sessions = null)
    {
        var code = $"S{++_codes}";
        var service = await _agency.AddAsync(new ServiceRow
        {
            LearnerId = learner,
            PlanId = _plans[learner],
            Code = code,
            Position = _codes,
            Discipline = discipline,
            Kind = kind,
            CoTreatment = coTreatment,
            EveryUnit = EveryUnit.Week,
            FromDay = First,
            ToDay = Last,
        });
        await _agency.AddAsync(new ServiceVersionRow
        {
            LearnerId = learner,
            ServiceId = service.Id,
            Code = code,
            FromDay = First,
            Quantity = 60,
            Sessions = sessions,
        });
        if (provider is { } person)
            await _agency.AddAsync(new AssignmentRow { LearnerId = learner, ServiceId = service.Id, PersonId = person, FromDay = First, ToDay = Last });
        return service;
    }

    public async Task<GoalRow> GoalAsync(int learner, int owner, Measure measure = Measure.PercentIndependent)
    {
        var goal = await _agency.AddAsync(new GoalRow
        {
            LearnerId = learner,
            PlanId = _plans[learner],
            Code = $"G{++_codes}",
            Area = "vision",
            Statement = "Shifts gaze from the object cue to the object",
            Measure = measure,
            FromDay = First,
            ToDay = Last,
        });
        await _agency.AddAsync(new ProbeCommitmentRow { LearnerId = learner, GoalId = goal.Id, FromDay = First, Probes = 1, EveryUnit = EveryUnit.Week, ByEach = true });
        await _agency.AddAsync(new GoalOwnerRow { LearnerId = learner, GoalId = goal.Id, PersonId = owner, FromDay = First, ToDay = Last });
        return goal;
    }

    /// <summary>A scheduled visit, by default Wren's with Odalys on Tuesday 15 September at 9:00 for 45 minutes.</summary>
    public Task<VisitRow> VisitAsync(
        ServiceRow? service = null, int? provider = null, LocalDate? day = null, LocalTime? start = null, int minutes = 45, Action<VisitRow>? with = null)
    {
        service ??= Vision;
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = service.LearnerId,
            ServiceId = service.Id,
            ProviderId = provider ?? Odalys,
            Zone = "America/Los_Angeles",
            LearnersTime = service.Kind == ServiceKind.Direct,
        };
        visit.TakePlace(day ?? new(2026, 9, 15), start ?? new(9, 0), minutes);
        with?.Invoke(visit);
        return _agency.AddAsync(visit);
    }

    private async Task<int> LearnerAsync(string code, string name)
    {
        var learner = await _agency.AddAsync(new LearnerRow { Code = code, Name = name, MostMinutesADay = 120 });
        _plans[learner.Id] = (await _agency.AddAsync(new PlanRow { LearnerId = learner.Id, StartDay = First, EndDay = Last })).Id;
        return learner.Id;
    }
}
