using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.MakeUps;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.MakeUps;

/// <summary>Wren's vision service owes 60 minutes a week; seven weeks have begun by Friday 2 October and nothing was given.</summary>
public sealed class MakeUpTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Monday = new(2026, 10, 5);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"MAKEUP{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<MakeUpFacts> ReadAsync(int person, MakeUpAsk? ask = null, params RefusedDay[] refused)
    {
        var caller = await _team.CallerAsync(person);
        return (await _agency.Get<ReadMakeUps>().RunAsync(caller, Scope.Of(caller), ask ?? new(), refused))!;
    }

    private async Task<Outcome<AcceptMakeUp.Saved>> AcceptAsync(int person, AcceptMakeUp.Input input, Guid? operation = null) =>
        await _agency.Get<AcceptMakeUp>().RunAsync(await _team.CallerAsync(person), operation ?? Guid.CreateVersion7(), input);

    private AcceptMakeUp.Input Input(LocalTime? start = null, int minutes = 60) => new()
    {
        Service = _team.Vision.Id,
        Window = new(2026, 9, 14),
        Provider = _team.Odalys,
        OnDay = Monday,
        Start = start ?? new(9, 0),
        Minutes = minutes,
    };

    private Task<List<VisitRow>> VisitsAsync() => _agency.Portal.ReadAsync(
        _agency.WholeAgency, db => db.Visits.Where(v => v.AgencyId == _agency.Id).OrderBy(v => v.OnDay).ToListAsync());

    private async Task<Standings> StandingsAsync() =>
        await _agency.Get<ReadStandingLines>().RunAsync(_agency.WholeAgency, (await _team.CallerAsync(_team.Marisol)).Today);

    [Fact]
    public async Task Weeks_that_lack_something_and_have_begun_are_what_visits_are_looked_for()
    {
        await _team.VisitAsync(day: new(2026, 9, 29), minutes: 45, with: v => v.State = VisitState.Planned);
        await _team.VisitAsync(day: new(2026, 10, 6), minutes: 40, with: v => v.PaysOn = new(2026, 8, 17));
        await _team.VisitAsync(day: new(2026, 10, 20), minutes: 30, with: v => v.PaysOn = new(2026, 8, 24));

        var facts = await ReadAsync(_team.Odalys);

        Assert.Equal(
            [(new LocalDate(2026, 8, 17), 20), (new(2026, 8, 24), 30), (new(2026, 8, 31), 60), (new(2026, 9, 7), 60), (new(2026, 9, 14), 60), (new(2026, 9, 21), 60), (new(2026, 9, 28), 60)],
            facts.Lacking.Select(l => (l.First, l.Minutes)));
        Assert.Equal(Enumerable.Range(0, 10).Select(i => Monday.PlusDays(i / 5 * 7 + (i % 5))), facts.Problem.Days.Select(Day.Date));
    }

    [Fact]
    public async Task Accepted_visit_stands_on_the_calendar_pays_its_window_and_counts_at_once_as_planned()
    {
        var before = (await StandingsAsync()).OfService(_team.Vision.Id)!.Balance.Minutes;

        var saved = await AcceptAsync(_team.Marisol, Input());

        Assert.Empty(saved.Problems);
        var visit = Assert.Single(await VisitsAsync());
        Assert.Equal(
            (saved.Value!.Visit, Monday, new LocalTime(9, 0), 60, (LocalDate?)new LocalDate(2026, 9, 14), VisitState.Planned, true),
            (visit.Id, visit.OnDay, visit.StartTime, visit.Minutes, visit.PaysOn, visit.State, visit.LearnersTime));
        Assert.Equal(before.ShortAsPlanned - 60, (await StandingsAsync()).OfService(_team.Vision.Id)!.Balance.Minutes.ShortAsPlanned);
        Assert.Equal(-1, (await ReadAsync(_team.Odalys)).Find(_team.Vision.Id, new(2026, 9, 14)));
    }

    [Fact]
    public async Task Accepting_every_visit_turns_the_status_to_make_ups_planned()
    {
        await _team.VisitAsync(day: new(2026, 10, 5), start: new(13, 0), minutes: 60);
        await _team.VisitAsync(day: new(2026, 10, 12), start: new(13, 0), minutes: 60);
        // a day that has a visit of the service gets no second one: eight days are left for seven weeks
        var facts = await ReadAsync(_team.Odalys);
        var proposal = MakeUpPlanner.Solve(facts.Problem, new(5));
        Assert.Empty(proposal.Unmet);
        foreach (var visit in proposal.Visits)
        {
            var lacking = facts.Lacking[visit.Need];
            var saved = await AcceptAsync(_team.Odalys, new()
            {
                Service = lacking.Line.Id,
                Window = lacking.First,
                Provider = lacking.ProviderId,
                OnDay = Day.Date(visit.When.Day),
                Start = LocalTime.FromMinutesSinceMidnight(visit.When.Start),
                Minutes = visit.When.Minutes,
            });
            Assert.Empty(saved.Problems);
        }

        Assert.Equal(Status.CatchingUp, (await StandingsAsync()).OfService(_team.Vision.Id)!.Balance.Status);
    }

    [Fact]
    public async Task Same_form_sent_twice_books_one_visit()
    {
        var operation = Guid.CreateVersion7();

        var (one, other) = (await AcceptAsync(_team.Odalys, Input(), operation), await AcceptAsync(_team.Odalys, Input(), operation));

        Assert.Equal(one.Value, other.Value);
        Assert.Single(await VisitsAsync());
    }

    [Fact]
    public async Task Window_that_is_planned_meanwhile_is_refused()
    {
        await AcceptAsync(_team.Odalys, Input());

        var again = await AcceptAsync(_team.Marisol, Input(new(13, 0)));

        Assert.Contains("Nothing lacks in that window", Assert.Single(again.Problems).Message, StringComparison.Ordinal);
        Assert.Single(await VisitsAsync());
    }

    [Theory]
    [InlineData(9, 30, 60)] // overlaps Jonah's visit
    [InlineData(7, 0, 60)] // before anybody works
    [InlineData(11, 5, 60)] // off the grid
    [InlineData(11, 0, 90)] // longer than a visit may be
    public async Task Time_that_breaks_a_rule_now_is_refused(int hour, int minute, int minutes)
    {
        await _team.VisitAsync(await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys), day: Monday, start: new(10, 0), minutes: 45);

        var refused = await AcceptAsync(_team.Marisol, Input(new(hour, minute), minutes));

        Assert.Contains("no longer free", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
        Assert.Single(await VisitsAsync());
    }

    [Fact]
    public async Task Of_two_people_who_accept_visits_at_one_time_one_is_refused()
    {
        var jonah = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
        var together = await Task.WhenAll(
            AcceptAsync(_team.Marisol, Input()),
            AcceptAsync(_team.Odalys, Input() with { Service = jonah.Id }));

        Assert.Single(together, t => t.Value is not null);
        Assert.Single(await VisitsAsync());
    }

    [Fact]
    public async Task Provider_accepts_for_themselves_only_and_a_stranger_for_nobody()
    {
        var bram = await _team.ServiceAsync(_team.Wren, Discipline.OccupationalTherapy, _team.Bram);

        Assert.Contains(Problem.NotFound, (await AcceptAsync(_team.Odalys, Input() with { Service = bram.Id, Provider = _team.Bram })).Problems);
        Assert.Contains(Problem.NotFound, (await AcceptAsync(_team.Priya, Input() with { Provider = _team.Priya })).Problems);
        Assert.Contains(Problem.NotFound, (await AcceptAsync(_team.Ines, Input())).Problems);
        Assert.NotEmpty((await AcceptAsync(_team.Bram, Input() with { Provider = _team.Bram })).Problems); // named is Odalys
        Assert.Empty(await VisitsAsync());
        Assert.Equal([_team.Odalys], (await ReadAsync(_team.Odalys)).Lacking.Select(l => l.ProviderId).Distinct());
        Assert.Equal([_team.Odalys, _team.Bram], (await ReadAsync(_team.Marisol)).Lacking.Select(l => l.ProviderId).Distinct());
        Assert.Empty((await ReadAsync(_team.Priya)).Lacking);
    }

    [Fact]
    public async Task Provider_is_busy_with_a_learner_whom_the_case_manager_does_not_know()
    {
        await _team.VisitAsync(await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys), day: Monday, start: new(9, 0), minutes: 30);

        var facts = await ReadAsync(_team.Marisol);

        var busy = Assert.Single(facts.Problem.Busy);
        Assert.Equal(($"{_team.Odalys}", null, null), (busy.Provider, busy.Learner, busy.Line));
        Assert.Equal(new DayTime(Day.Of(Monday), 9 * 60, (9 * 60) + 30), busy.When);
    }

    [Fact]
    public async Task Closures_days_away_hours_and_travel_limit_what_is_proposed()
    {
        await _agency.AddAsync(new ClosureRow { OnDay = Monday.PlusDays(1), Name = "Staff day", Kind = ClosureKind.Published });
        await _agency.AddAsync(new AwayRow { LearnerId = _team.Wren, FromDay = Monday.PlusDays(2), UntilDay = Monday.PlusDays(2), Reason = default, RecordedBy = _team.Marisol });
        await _agency.AddAsync(new WorkingHoursRow { PersonId = _team.Odalys, Weekday = IsoDayOfWeek.Thursday, FromTime = new(13, 0), ToTime = new(15, 0), FromDay = new(2026, 8, 17) });
        await _agency.AddAsync(new OpenHoursRow { LearnerId = _team.Wren, Weekday = IsoDayOfWeek.Thursday, FromTime = new(9, 0), ToTime = new(14, 0), FromDay = new(2026, 8, 17) });

        var facts = await ReadAsync(_team.Odalys);
        var proposal = MakeUpPlanner.First(facts.Problem);

        Assert.DoesNotContain(Day.Of(Monday.PlusDays(1)), facts.Problem.Days);
        Assert.Equal([(Monday.PlusDays(3), 13 * 60), (Monday.PlusDays(10), 13 * 60)], proposal.Visits.Select(v => (Day.Date(v.When.Day), v.When.Start)));
        Assert.Empty(facts.Assumed.Providers);
        Assert.Empty(facts.Assumed.Learners);
    }

    [Fact]
    public async Task Most_minutes_that_a_person_gives_a_day_hold_and_are_named_as_the_reason()
    {
        await _agency.ChangeAsync<Data.People.PersonRow>(p => p.Id == _team.Odalys, p => p.MostMinutesADay = 60);
        foreach (var day in Enumerable.Range(0, 12).Select(Monday.PlusDays).Where(d => d.DayOfWeek is not (IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday)))
            await _team.VisitAsync(await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys), day: day, start: new(9, 0), minutes: 30);

        var facts = await ReadAsync(_team.Odalys, new(_team.Wren));
        var answer = MakeUpPlanner.Explain(facts.Problem, MakeUpPlanner.First(facts.Problem));

        Assert.Empty(answer.Visits); // a session has 60 minutes, and 30 are left of each day
        Assert.All(answer.Unmet, u => Assert.Equal(UnmetReason.ProviderDay, u.Because));
    }

    [Fact]
    public async Task Windows_of_the_period_that_was_asked_for_are_looked_at_also_when_it_is_over()
    {
        await _agency.AddAsync(new PeriodRow { Name = "Period 2", StartDay = new(2026, 10, 17), EndDay = new(2026, 12, 18) });
        _agency.Clock.Advance(TimeSpan.FromDays(21)); // Friday 23 October

        var (now, before) = (await ReadAsync(_team.Odalys), await ReadAsync(_team.Odalys, new(Period: _team.Period.Id)));
        var accepted = await AcceptAsync(_team.Odalys, Input() with { OnDay = new(2026, 10, 26), Period = _team.Period.Id });

        Assert.Equal(("Period 2", "Period 1"), (now.Period.Name, before.Period.Name));
        Assert.Equal(new LocalDate(2026, 10, 19), Assert.Single(now.Lacking).First);
        Assert.Equal((new LocalDate(2026, 8, 17), 9), (before.Lacking[0].First, before.Lacking.Count));
        Assert.Equal(new LocalDate(2026, 10, 26), Day.Date(before.Problem.Days[0])); // the days of its own are over
        Assert.Equal(new LocalDate(2026, 9, 14), Assert.Single(await VisitsAsync()).PaysOn);
        Assert.Empty(accepted.Problems);
    }

    [Fact]
    public async Task What_nobody_entered_is_assumed_and_said()
    {
        await _team.VisitAsync(await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys), day: Monday, start: new(9, 0), minutes: 30);

        var facts = await ReadAsync(_team.Odalys, new(_team.Wren));

        Assert.Equal([_team.Odalys], facts.Assumed.Providers);
        Assert.Equal([_team.Wren], facts.Assumed.Learners);
        Assert.Equal(30, facts.Assumed.TravelMinutes);
        Assert.Null(facts.Problem.MissingWay());
    }

    [Fact]
    public async Task Service_with_nobody_assigned_is_named_and_gets_no_visit()
    {
        var speech = await _team.ServiceAsync(_team.Wren, Discipline.SpeechLanguage, null);

        var facts = await ReadAsync(_team.Marisol, new(_team.Wren, speech.Id));

        Assert.Equal([speech.Id], facts.Unassigned.Select(l => l.Id));
        Assert.Empty(facts.Lacking);
    }

    [Fact]
    public async Task Refused_day_is_kept_out()
    {
        var facts = await ReadAsync(_team.Odalys, new(Service: _team.Vision.Id), new RefusedDay(_team.Vision.Id, new(2026, 8, 17), Monday));

        Assert.False(MakeUpPlanner.Allows(facts.Problem, new(0, new(Day.Of(Monday), 9 * 60, 10 * 60))));
        Assert.True(MakeUpPlanner.Allows(facts.Problem, new(1, new(Day.Of(Monday), 9 * 60, 10 * 60))));
    }
}
