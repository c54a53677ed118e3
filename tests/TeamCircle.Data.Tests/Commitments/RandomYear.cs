using System.Data;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>A random school year in the rows: windows of every kind, make-ups across them, visits where none belong, all from one seed.</summary>
internal sealed class RandomYear
{
    private static readonly LocalDate First = new(2026, 8, 17), Last = new(2027, 5, 28);
    private readonly Random _random;
    private readonly int[] _people = new int[4];
    private readonly TestAgency _agency;
    private readonly PortalDb _db;
    private PeriodRow _firstPeriod = null!;
    private AwardRow? _award;
    private int _number;
    private int _slot;

    private RandomYear(TestAgency agency, PortalDb db, int seed) => (_agency, _db, _random) = (agency, db, new Random(seed));

    public static async Task WriteAsync(TestAgency agency, int seed, int learners)
    {
        await using var work = await agency.Portal.OpenAsync(agency.WholeAgency, IsolationLevel.ReadCommitted);
        var year = new RandomYear(agency, work.Db, seed);
        await year.AddAgencyAsync();
        for (var i = 0; i < learners; i++)
            await year.AddLearnerAsync();
        await work.Db.SaveChangesAsync();
        await work.CommitAsync();
    }

    private async Task AddAgencyAsync()
    {
        Add(new TermRow { Name = "Year", FirstDay = First, LastDay = Last });
        Add(new TermRow { Name = "Summer", FirstDay = new(2027, 6, 14), LastDay = new(2027, 7, 9), Kind = TermKind.Extended });
        foreach (var (name, start, end) in new (string, LocalDate, LocalDate)[]
            { ("P1", First, new(2026, 10, 16)), ("P2", new(2026, 10, 19), new(2026, 12, 18)), ("P3", new(2026, 12, 19), new(2027, 2, 26)), ("P4", new(2027, 2, 27), Last) })
        {
            var period = Add(new PeriodRow { Name = name, StartDay = start, EndDay = end });
            _firstPeriod ??= period;
        }
        for (var i = 0; i < 14; i++)
            Add(new ClosureRow { OnDay = new LocalDate(2026, 12, 20).PlusDays(i), Name = "Break", Kind = ClosureKind.Published });
        Add(new PolicyRow { FromDay = First, Surplus = Pick(Surplus.EachWindowAlone, Surplus.CarryWithinPeriod), ShortWindow = Pick(Enum.GetValues<ShortWindow>()), SessionShare = Pick(80, 100) });
        var people = _people.Select((_, i) => Add(new PersonRow { Email = $"person{i}@tallowfern.example", Name = $"Person {i}" })).ToList();
        await _db.SaveChangesAsync();
        for (var i = 0; i < people.Count; i++)
            _people[i] = people[i].Id;
    }

    private async Task AddLearnerAsync()
    {
        var learner = Add(new LearnerRow { Code = $"L{_number++}", Name = "Somebody", MostMinutesADay = Pick(60, 120) });
        await _db.SaveChangesAsync();
        var plan = Add(new PlanRow { LearnerId = learner.Id, StartDay = Near(new(2026, 5, 1), 60), EndDay = Near(new(2027, 5, 1), 60) });
        await _db.SaveChangesAsync();
        for (var i = 0; i < 4; i++)
            await AddServiceAsync(plan);
        for (var i = 0; i < 2; i++)
            await AddGoalAsync(plan);
    }

    private async Task AddServiceAsync(PlanRow plan)
    {
        var every = Pick(new Every(EveryUnit.Week, 1), new(EveryUnit.Week, 2), new(EveryUnit.Month, 1), new(EveryUnit.Month, 3), new(EveryUnit.Period, 1), new(EveryUnit.PlanYear, 1));
        var code = $"S{_number++}";
        var service = Add(new ServiceRow
        {
            LearnerId = plan.LearnerId,
            PlanId = plan.Id,
            Code = code,
            Kind = Pick(ServiceKind.Direct, ServiceKind.Direct, ServiceKind.Consultation),
            Terms = Pick(LineTerms.Regular, LineTerms.Regular, LineTerms.Both, LineTerms.Extended),
            EveryUnit = every.Unit,
            EveryCount = every.Count,
            FromDay = Near(First, 20),
            ToDay = Near(new(2027, 4, 1), 90),
        });
        await _db.SaveChangesAsync();
        Add(new ServiceVersionRow { LearnerId = service.LearnerId, ServiceId = service.Id, Code = code, FromDay = service.FromDay, Quantity = 60, Sessions = Pick<int?>(2, null) });
        if (_random.Next(3) == 0)
            Add(new ServiceVersionRow { LearnerId = service.LearnerId, ServiceId = service.Id, Code = code + "b", FromDay = Near(new(2026, 11, 1), 40), Quantity = 90, Sessions = Pick<int?>(3, null) });
        Add(new AssignmentRow { LearnerId = service.LearnerId, ServiceId = service.Id, PersonId = Pick(_people), FromDay = service.FromDay, ToDay = Near(new(2027, 2, 1), 120) });
        if (_random.Next(8) == 0)
            Add(new BalanceRow { LearnerId = service.LearnerId, ServiceId = service.Id, AsOf = service.FromDay.PlusDays(3), GivenBefore = 70 });
        if (_random.Next(2) == 0)
            AddDebt(service);
        if (_random.Next(3) == 0)
        {
            _award = Add(new AwardRow { LearnerId = service.LearnerId, ServiceId = service.Id, Amount = 120, Paper = "Answer to a complaint", FromDay = First });
            await _db.SaveChangesAsync();
        }
        for (var i = 0; i < 25; i++)
            AddVisit(service);
        _award = null;
        for (var i = _random.Next(4); i > 0; i--)
            Add(Decision(service.LearnerId, service.Id, null, 20 + _random.Next(40)));
    }

    /// <summary>Of a window of the first period, or brought by file; make-ups near it pay it.</summary>
    private void AddDebt(ServiceRow service)
    {
        var day = Near(new(2026, 9, 20), 20);
        var isFromFile = _random.Next(3) == 0;
        Add(new DebtRow
        {
            LearnerId = service.LearnerId,
            ServiceId = service.Id,
            PeriodId = isFromFile ? null : _firstPeriod.Id,
            OnDay = day,
            Since = isFromFile ? day : _firstPeriod.EndDay,
            Undecided = _random.Next(90),
            UndecidedSessions = _random.Next(3),
            PaidBefore = _random.Next(20),
        });
    }

    private void AddVisit(ServiceRow service)
    {
        var day = SomeDay();
        LocalDate? pays = _random.Next(6) == 0 ? Near(day, 40) : null;
        var award = _random.Next(4) == 0 ? _award : null;
        if (award is not null)
            pays = null;
        var start = new LocalTime(0, 0).PlusMinutes(_slot++ * 7 % 1380); // the learner's and person's other visits are left aside: TakesTime is false
        var state = Pick(VisitState.Planned, VisitState.Logged, VisitState.Logged, VisitState.Logged);
        var minutes = 10 + _random.Next(50);
        var (from, to) = WallTime.Span(day.At(start), minutes, DateTimeZoneProviders.Tzdb["America/Los_Angeles"]);
        var visit = Add(new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = service.LearnerId,
            ServiceId = service.Id,
            ProviderId = Pick(_people),
            OnDay = day,
            StartTime = start,
            Minutes = minutes,
            PlannedMinutes = Pick<int?>(30, null),
            Zone = "America/Los_Angeles",
            During = new(from, true, to, false),
            PaysOn = pays,
            AwardId = award?.Id,
            State = state,
            TakesTime = false,
        });
        if (state == VisitState.Logged)
        {
            Add(new SessionRow
            {
                Id = Guid.CreateVersion7(),
                LearnerId = visit.LearnerId,
                ServiceId = visit.ServiceId!.Value,
                VisitId = visit.Id,
                ProviderId = visit.ProviderId,
                OnDay = day,
                PaysOn = pays,
                AwardId = award?.Id,
                Outcome = Pick(VisitOutcome.Given, VisitOutcome.Given, VisitOutcome.Offered),
                StartTime = start,
                EndTime = start.PlusMinutes(minutes),
                Credited = minutes,
                Place = Pick(Place.Home, Place.Home, Place.School),
                Format = Pick(SessionFormat.Individual, SessionFormat.Individual, SessionFormat.Group),
                Live = true,
            });
        }
    }

    private async Task AddGoalAsync(PlanRow plan)
    {
        var goal = Add(new GoalRow { LearnerId = plan.LearnerId, PlanId = plan.Id, Code = $"G{_number++}", Area = "vision", Statement = "Looks.", FromDay = First, ToDay = Last });
        await _db.SaveChangesAsync();
        var every = Pick(new Every(EveryUnit.Week, 1), new(EveryUnit.Week, 2), new(EveryUnit.Month, 1), new(EveryUnit.Period, 1));
        Add(new ProbeCommitmentRow { LearnerId = goal.LearnerId, GoalId = goal.Id, FromDay = First, Probes = 1 + _random.Next(2), EveryUnit = every.Unit, EveryCount = every.Count, ByEach = _random.Next(2) == 0 });
        if (_random.Next(3) == 0)
            Add(new ProbeCommitmentRow { LearnerId = goal.LearnerId, GoalId = goal.Id, FromDay = Near(new(2026, 12, 1), 40), Probes = 2, EveryUnit = EveryUnit.Week, ByEach = _random.Next(2) == 0 });
        foreach (var person in _people.Take(2))
            Add(new GoalOwnerRow { LearnerId = goal.LearnerId, GoalId = goal.Id, PersonId = person, FromDay = First, ToDay = Near(new(2027, 3, 1), 80) });
        for (var i = 0; i < 30; i++)
        {
            var day = SomeDay();
            Add(new ProbeRow
            {
                Id = Guid.CreateVersion7(),
                LearnerId = goal.LearnerId,
                GoalId = goal.Id,
                ProviderId = _people[_random.Next(3)],
                OnDay = day,
                PaysOn = _random.Next(6) == 0 ? Near(day, 20) : null,
                Kind = Pick(ProbeKind.Probe, ProbeKind.Probe, ProbeKind.Teaching),
            });
        }
        Add(Decision(goal.LearnerId, null, goal.Id, 1));
    }

    private DecisionRow Decision(int learner, int? service, int? goal, int amount) => new()
    {
        LearnerId = learner,
        ServiceId = service,
        GoalId = goal,
        OnDay = SomeDay(),
        Amount = amount,
        Kind = Pick(Enum.GetValues<DecisionKind>()),
        DecidedOn = Last,
        DecidedBy = [_people[0]],
    };

    // Often the same few days, so that two make-ups or probes fall on one.
    private LocalDate SomeDay() => _random.Next(12) == 0 ? Near(First, 40) : First.PlusDays(_random.Next(60) * 5);

    private LocalDate Near(LocalDate day, int days) => day.PlusDays(_random.Next(2 * days + 1) - days);

    private T Pick<T>(params T[] from) => from[_random.Next(from.Length)];

    private T Add<T>(T row) where T : class, IAgencyRow
    {
        row.AgencyId = _agency.Id;
        _db.Add(row);
        return row;
    }
}
