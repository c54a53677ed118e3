using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>A learner is away: visits are called off, nothing is decided, and what comes back comes back.</summary>
public sealed class AwayTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private CalendarAgency _agency = null!;

    public async ValueTask InitializeAsync() => _agency = await CalendarAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private Task<Outcome<AddAway.Saved>> AwayAsync(LocalDate from, LocalDate? until, int? by = null) => _agency.RunAsync<AddAway, AddAway.Saved>(
        by ?? _agency.Team.Marisol, (o, c, id) => o.RunAsync(c, id, new() { Learner = _agency.Team.Wren, Reason = AwayReason.Hospital, FromDay = from, UntilDay = until, Note = "Planned surgery" }));

    private Task<Outcome<EndAway.Saved>> EndAsync(int away, LocalDate? until, bool takeBack = false, int version = 1) => _agency.RunAsync<EndAway, EndAway.Saved>(
        _agency.Team.Marisol, (o, c, id) => o.RunAsync(c, id, new() { Learner = _agency.Team.Wren, Away = away, Version = version, UntilDay = until, TakeBack = takeBack }));

    private async Task<string> StatesAsync(int series) => string.Join(' ', (await _agency.RowsAsync(series)).Where(r => r.Live).Select(r => $"{r.OnDay.Month}/{r.OnDay.Day}{(r.State == VisitState.CalledOff ? "-" : "+")}"));

    [Fact]
    public async Task Two_weeks_in_hospital_call_visits_off_lower_no_promise_and_leave_every_minute_undecided()
    {
        var series = await _agency.ScheduleAsync();
        var saved = CalendarAgency.Value(await AwayAsync(new(2026, 10, 5), new(2026, 10, 16)));
        _agency.Agency.Clock.Advance(TimeSpan.FromDays(18)); // Tuesday 20 October

        Assert.Equal((2, 0), (saved.Effect.CalledOff, saved.Effect.Back));
        Assert.Equal("10/6- 10/13- 10/20+ 10/27+ 11/3+ 11/10+ 11/17+ 11/24+ 12/1+ 12/8+ 12/15+", await StatesAsync(series.Series));
        Assert.Equal(Reason.LearnerInHospital, (await _agency.OnAsync(series.Series, 10, 6)).CalledOff);

        var caller = await _agency.Team.CallerAsync(_agency.Team.Marisol);
        var page = (await _agency.Agency.Get<ReadLedger>().ServiceAsync(Scope.Of(caller), _agency.Team.Vision.Id, _agency.Team.Period.Id, caller.Today))!;
        var weeks = Assert.Single(page.Lines).Working.Closing.Where(w => w.Window.Days.First >= Core.Time.Day.Of(new(2026, 10, 5))).ToList();
        Assert.Equal([60, 60], weeks.Select(w => w.Minutes.Owed));
        Assert.Equal([60, 60], weeks.Select(w => w.Minutes.Lack));
        Assert.Equal(120, weeks.Sum(w => w.Minutes.Undecided));

        var decide = (await _agency.Agency.Get<ReadDecide>().RunAsync(caller, _agency.Team.Vision.Id, null, null, new(2026, 10, 6)))!;
        Assert.Equal([Reason.LearnerInHospital], decide.Missed.Select(m => m.Missed.Reason!.Value));
    }

    [Fact]
    public async Task Open_stay_asks_to_meet_after_as_many_school_days_as_the_agency_set()
    {
        var team = _agency.Team;
        var dele = await team.PersonAsync("Dele Okwarre", Core.People.Role.Administrator, Core.People.Relation.Team);
        var version = (await _agency.Agency.Get<ReadCalendar>().RunAsync(_agency.Agency.WholeAgency)).AwayMeeting.Version;
        Task<Outcome<SetAwayMeetingDays.Saved>> Set(int person, int? days) => _agency.RunAsync<SetAwayMeetingDays, SetAwayMeetingDays.Saved>(
            person, (o, c, id) => o.RunAsync(c, id, new() { Days = days, Version = version }));
        CalendarAgency.Value(await AwayAsync(new(2026, 10, 1), null)); // today is Friday 2 October: two school days

        async Task<int> AskedAsync() => (await _agency.Agency.Get<Data.Sessions.ReadMyDay>()
            .RunAsync(await team.CallerAsync(team.Marisol), Scope.Of(await team.CallerAsync(team.Marisol)))).ToMeet.Count;
        var before = await AskedAsync();
        var (none, most, other) = (await Set(dele, 0), await Set(dele, 201), await Set(team.Marisol, 2));
        CalendarAgency.Value(await Set(dele, 2));

        Assert.Equal((0, 1), (before, await AskedAsync()));
        Assert.Equal((true, true), (none.Problems.Single().Field == "Days", most.Problems.Single().Field == "Days"));
        Assert.Equal([Problem.NotFound], other.Problems);
    }

    [Fact]
    public async Task Open_stay_holds_all_that_follows_until_it_ends_and_then_visits_come_back()
    {
        var series = await _agency.ScheduleAsync();
        var away = CalendarAgency.Value(await AwayAsync(new(2026, 10, 12), null));
        Assert.Equal("10/6+ 10/13- 10/20- 10/27- 11/3- 11/10- 11/17- 11/24- 12/1- 12/8- 12/15-", await StatesAsync(series.Series));

        var ended = CalendarAgency.Value(await EndAsync(away.Away, new(2026, 10, 30)));

        Assert.Equal((0, 7), (ended.Effect.CalledOff, ended.Effect.Back));
        Assert.Equal("10/6+ 10/13- 10/20- 10/27- 11/3+ 11/10+ 11/17+ 11/24+ 12/1+ 12/8+ 12/15+", await StatesAsync(series.Series));
        CalendarAgency.Value(await EndAsync(away.Away, null, takeBack: true, version: 2));
        Assert.DoesNotContain("-", await StatesAsync(series.Series), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Time_that_was_given_to_somebody_else_meanwhile_is_lost_and_said()
    {
        var series = await _agency.ScheduleAsync();
        var away = CalendarAgency.Value(await AwayAsync(new(2026, 10, 12), new(2026, 10, 23)));
        var jonahs = await _agency.Team.ServiceAsync(_agency.Team.Jonah, Core.Learners.Discipline.Vision, _agency.Team.Odalys);
        await _agency.Team.VisitAsync(jonahs, day: new(2026, 10, 13), start: new(9, 30));

        var ended = CalendarAgency.Value(await EndAsync(away.Away, null, takeBack: true));

        Assert.Equal([new LocalDate(2026, 10, 13)], ended.Effect.Lost.Select(l => l.OnDay));
        Assert.StartsWith("10/6+ 10/13- 10/20+", await StatesAsync(series.Series), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Series_scheduled_over_a_time_away_calls_these_visits_off_and_a_single_visit_is_refused()
    {
        CalendarAgency.Value(await AwayAsync(new(2026, 10, 12), new(2026, 10, 16)));

        var series = await _agency.ScheduleAsync();
        var single = await _agency.RunAsync<ScheduleVisit, ScheduleVisit.Saved>(_agency.Team.Odalys, (o, c, id) => o.RunAsync(c, id,
            new() { Learner = _agency.Team.Wren, ServiceId = _agency.Team.Vision.Id, OnDay = new(2026, 10, 14), Start = new(9, 0), Minutes = 30 }));

        Assert.StartsWith("10/6+ 10/13- 10/20+", await StatesAsync(series.Series), StringComparison.Ordinal);
        Assert.Equal([new LocalDate(2026, 10, 13)], series.Away);
        Assert.Equal("The learner is away until 16 October.", Assert.Single(single.Problems).Message);
    }

    [Fact]
    public async Task Second_time_away_on_the_same_days_and_strangers_are_refused()
    {
        CalendarAgency.Value(await AwayAsync(new(2026, 10, 12), null));

        Assert.Equal("FromDay", Assert.Single((await AwayAsync(new(2026, 11, 2), new(2026, 11, 3))).Problems).Field);
        Assert.Equal([Problem.NotFound], (await AwayAsync(new(2026, 10, 5), null, _agency.Team.Priya)).Problems);
        Assert.Equal([Problem.NotFound], (await AwayAsync(new(2026, 10, 5), null, _agency.Team.Ines)).Problems);
    }
}
