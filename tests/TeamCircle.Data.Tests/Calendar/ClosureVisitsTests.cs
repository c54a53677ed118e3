using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>A day is closed after visits were scheduled on it: who is told, and what becomes of them. Today is Friday 2 October 2026.</summary>
public sealed class ClosureVisitsTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Tuesday = new(2026, 10, 13);
    private CalendarAgency _agency = null!;
    private int _dele;

    public async ValueTask InitializeAsync()
    {
        _agency = await CalendarAgency.CreateAsync(database);
        _dele = await _agency.Team.PersonAsync("Dele Okwarre", Role.Administrator, Relation.Team);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    /// <summary>The series on Tuesdays, and then a closure on the second of them.</summary>
    private async Task<(int Series, AddClosure.Saved Closed)> CloseAfterwardsAsync()
    {
        var series = (await _agency.ScheduleAsync()).Series;
        return (series, CalendarAgency.Value(await _agency.RunAsync<AddClosure, AddClosure.Saved>(_dele, (o, c, id) =>
            o.RunAsync(c, id, new() { Name = "Snow", Kind = ClosureKind.Unscheduled, FirstDay = Tuesday, Reason = "Roads closed" }))));
    }

    private Task<ClosureRow> ClosureAsync() => _agency.Agency.Portal.ReadAsync(_agency.Agency.WholeAgency, db => db.Closures.SingleAsync(c => c.AgencyId == _agency.Agency.Id));

    private async Task<Outcome<CancelClosedVisits.Saved>> CancelAsync(int? by = null)
    {
        var closure = await ClosureAsync();
        return await _agency.RunAsync<CancelClosedVisits, CancelClosedVisits.Saved>(by ?? _dele, (o, c, id) => o.RunAsync(c, id, new() { Closure = closure.Id, Version = closure.Version }));
    }

    private async Task<BringBackClosedVisits.Saved> BringBackAsync()
    {
        var closure = await ClosureAsync();
        return CalendarAgency.Value(await _agency.RunAsync<BringBackClosedVisits, BringBackClosedVisits.Saved>(
            _dele, (o, c, id) => o.RunAsync(c, id, new() { Closure = closure.Id, Version = closure.Version })));
    }

    private async Task<VisitChecks> OwnAsync(int person)
    {
        var caller = await _agency.Team.CallerAsync(person);
        return (await _agency.Agency.Get<ReadMyDay>().RunAsync(caller, Scope.Of(caller))).ToCheck;
    }

    private async Task<VisitChecks> AuditAsync(Scope scope) =>
        (await _agency.Agency.Get<ReadAudit>().RunAsync(scope, _agency.Team.Period.Id, new(2026, 10, 2)))!.Checks.Visits;

    [Fact]
    public async Task Visits_that_stood_before_are_counted_and_named_to_who_gives_them_and_in_the_audit()
    {
        var (series, closed) = await CloseAfterwardsAsync();
        var visit = await _agency.OnAsync(series, 10, 13);

        Assert.Equal((1, 1), (closed.Days, closed.Visits));
        var own = Assert.Single((await OwnAsync(_agency.Team.Odalys)).Closed);
        Assert.Equal((visit.Id, "Snow", "Wren Belmares"), (own.Visit, own.ClosedBy, own.Learner));
        Assert.Equal([own], (await AuditAsync(_agency.Agency.WholeAgency)).Closed);
        Assert.Empty((await OwnAsync(_agency.Team.Bram)).Closed);
        Assert.Empty((await AuditAsync(_agency.Agency.Person(_agency.Team.Bram, _agency.Team.Jonah))).Closed);
    }

    [Fact]
    public async Task They_are_cancelled_in_one_act_and_come_back_in_one()
    {
        var (series, _) = await CloseAfterwardsAsync();
        var before = await _agency.OnAsync(series, 10, 13);

        var cancelled = CalendarAgency.Value(await CancelAsync());

        var off = await _agency.VisitAsync(before.Id);
        Assert.Equal((1, VisitState.CalledOff, Reason.SchoolClosed, before.Sequence + 1), (cancelled.Visits, off.State, off.CalledOff, off.Sequence));
        Assert.Equal(VisitState.Planned, (await _agency.OnAsync(series, 10, 20)).State);
        Assert.Empty((await OwnAsync(_agency.Team.Odalys)).Closed);
        var caller = await _agency.Team.CallerAsync(_agency.Team.Odalys);
        Assert.Null((await _agency.Agency.Get<ReadPlannedVisit>().RunAsync(Scope.Of(caller), caller, before.Id))!.Undo); // it is taken back for all, by who did it

        var back = await BringBackAsync();

        var planned = await _agency.VisitAsync(before.Id);
        Assert.Equal((1, 0, VisitState.Planned, null, null), (back.Back, back.Lost, planned.State, planned.CalledOff, planned.ClosureId));
        Assert.Single((await OwnAsync(_agency.Team.Odalys)).Closed);
    }

    [Fact]
    public async Task Visit_whose_time_was_given_away_meanwhile_does_not_come_back()
    {
        var (series, _) = await CloseAfterwardsAsync();
        CalendarAgency.Value(await CancelAsync());
        await _agency.Team.VisitAsync(day: Tuesday, start: new(9, 15), minutes: 30);

        var back = await BringBackAsync();

        Assert.Equal((0, 1), (back.Back, back.Lost));
        Assert.Equal(VisitState.CalledOff, (await _agency.OnAsync(series, 10, 13)).State);
    }

    [Fact]
    public async Task Visit_that_a_person_said_takes_place_all_the_same_is_left_alone()
    {
        var (series, _) = await CloseAfterwardsAsync();
        var visit = await _agency.OnAsync(series, 10, 13);
        Task<Outcome<ChangeVisit.Saved>> Keep(bool confirmed) => _agency.RunAsync<ChangeVisit, ChangeVisit.Saved>(_agency.Team.Odalys, (o, c, id) => o.RunAsync(
            c, id, new() { Visit = visit.Id, Version = visit.Version, OnDay = visit.OnDay, Start = visit.StartTime, Minutes = visit.Minutes, Confirmed = confirmed }));

        Assert.Contains(await AskedAsync(Keep(false)), p => p.Field == "Confirmed");
        CalendarAgency.Value(await Keep(true));

        Assert.Empty((await OwnAsync(_agency.Team.Odalys)).Closed);
        Assert.Equal("No planned visit stands on that day any more.", Assert.Single((await CancelAsync()).Problems).Message);
        var page = await _agency.Agency.Get<ReadClosureVisits>().RunAsync(_agency.Agency.WholeAgency, await _agency.Team.CallerAsync(_dele), (await ClosureAsync()).Id);
        Assert.Equal((0, 1), (page!.StandingCount, page.Anyway));
    }

    [Fact]
    public async Task Taking_the_closure_back_plans_its_visits_again()
    {
        var (series, _) = await CloseAfterwardsAsync();
        CalendarAgency.Value(await CancelAsync());
        var closure = await ClosureAsync();

        var back = CalendarAgency.Value(await _agency.RunAsync<TakeBackClosure, TakeBackClosure.Saved>(
            _dele, (o, c, id) => o.RunAsync(c, id, new() { Closure = closure.Id, Version = closure.Version, Reason = "The roads were cleared" })));

        Assert.Equal((1, 0), (back.Back, back.Lost));
        Assert.Equal(VisitState.Planned, (await _agency.OnAsync(series, 10, 13)).State);
        Assert.Empty((await OwnAsync(_agency.Team.Odalys)).Closed);
    }

    [Fact]
    public async Task Nobody_but_an_administrator_cancels_them()
    {
        await CloseAfterwardsAsync();

        Assert.Equal([Problem.NotFound], (await CancelAsync(by: _agency.Team.Marisol)).Problems);
    }

    [Fact]
    public async Task Logged_visits_without_time_to_travel_between_are_named_and_others_are_not()
    {
        var team = _agency.Team;
        var east = await _agency.Agency.AddAsync(new PlaceRow { Code = "E1", Name = "East side", Kind = Place.Home });
        var west = await _agency.Agency.AddAsync(new PlaceRow { Code = "W1", Name = "West side", Kind = Place.Home });
        await _agency.Agency.AddAsync(new TravelTimeRow { FromPlaceId = east.Id, ToPlaceId = west.Id, Minutes = 20 });
        await _agency.Agency.AddAsync(new LearnerPlaceRow { LearnerId = team.Wren, Kind = Place.Home, PlaceId = east.Id });
        await _agency.Agency.AddAsync(new LearnerPlaceRow { LearnerId = team.Jonah, Kind = Place.Home, PlaceId = west.Id });
        var jonahs = await team.ServiceAsync(team.Jonah, Discipline.Vision, team.Odalys);
        async Task<Guid> LoggedAsync(int learner, int service, LocalDate day, LocalTime start)
        {
            var visit = new VisitRow { Id = Guid.CreateVersion7(), LearnerId = learner, ServiceId = service, ProviderId = team.Odalys, Zone = "America/Los_Angeles", State = VisitState.Logged, LearnersTime = true };
            visit.TakePlace(day, start, 30);
            return (await _agency.Agency.AddAsync(visit)).Id;
        }

        await LoggedAsync(team.Wren, team.Vision.Id, new(2026, 9, 29), new(9, 0));
        var near = await LoggedAsync(team.Jonah, jonahs.Id, new(2026, 9, 29), new(9, 49));
        await LoggedAsync(team.Wren, team.Vision.Id, new(2026, 9, 30), new(9, 0));
        await LoggedAsync(team.Jonah, jonahs.Id, new(2026, 9, 30), new(9, 50));
        await LoggedAsync(team.Wren, team.Vision.Id, new(2026, 9, 30), new(10, 40));

        var found = Assert.Single((await OwnAsync(team.Odalys)).Travel);
        Assert.Equal((near, new ShortWay("E1", "W1", 20, 19)), (found.Visit, found.Way));
        Assert.Equal([found], (await AuditAsync(_agency.Agency.WholeAgency)).Travel);
        Assert.Empty((await AuditAsync(_agency.Agency.Person(team.Marisol, team.Wren))).Travel); // whose other visits it does not reach
    }

    private static async Task<IReadOnlyList<Problem>> AskedAsync<T>(Task<Outcome<T>> outcome) where T : class => (await outcome).Problems;
}
