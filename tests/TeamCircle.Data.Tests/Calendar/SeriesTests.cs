using CsCheck;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>Series and what is done to them: their rows are the rule's occurrences, and what people changed by hand stays.</summary>
public sealed class SeriesTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private CalendarAgency _agency = null!;

    public async ValueTask InitializeAsync() => _agency = await CalendarAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private int Odalys => _agency.Team.Odalys;

    private async Task<Outcome<SeriesSaved>> FollowAsync(VisitRow visit, Func<ChangeFollowing.Input, ChangeFollowing.Input>? with = null) =>
        await _agency.RunAsync<ChangeFollowing, SeriesSaved>(Odalys, (o, c, id) =>
        {
            var input = new ChangeFollowing.Input
            {
                Visit = visit.Id,
                Version = visit.Version,
                Start = new(10, 0),
                Minutes = 45,
                EndsOn = new(2026, 12, 15),
                Cadence = new() { Days = [IsoDayOfWeek.Tuesday] },
            };
            return o.RunAsync(c, id, with?.Invoke(input) ?? input);
        });

    [Fact]
    public async Task Series_is_written_as_visits_that_keep_their_local_time_over_the_clock_change_and_leave_closed_days_out()
    {
        await _agency.CloseAsync(11, 24, "Autumn break");

        var saved = await _agency.ScheduleAsync();

        var rows = await _agency.RowsAsync(saved.Series);
        Assert.Equal("10/6 10/13 10/20 10/27 11/3 11/10 11/17 12/1 12/8 12/15", CalendarAgency.Days(rows));
        Assert.Equal([new ClosedDay(new(2026, 11, 24), "Autumn break")], saved.Closed);
        Assert.All(rows, r => Assert.Equal((new LocalTime(9, 0), r.OnDay.At(new(9, 0)), VisitState.Planned, true), (r.StartTime, r.OriginalStart!.Value, r.State, r.LearnersTime)));
        Assert.Equal([16, 17], rows.Where(r => r.OnDay is { Month: 10, Day: 27 } or { Month: 11, Day: 3 }).Select(r => r.During.LowerBound.InUtc().Hour));
        Assert.Equal(saved.First, rows[0].Id);
    }

    [Fact]
    public async Task Series_without_an_end_reaches_to_the_end_of_its_service()
    {
        var saved = await _agency.ScheduleAsync(_agency.Tuesdays with { EndsOn = null });

        Assert.Equal(new LocalDate(2027, 5, 4), (await _agency.RowsAsync(saved.Series))[^1].OnDay);
        Assert.Equal(new LocalDate(2027, 5, 6), (await _agency.SeriesAsync(saved.Series)).WrittenTo);
    }

    // The rows of a series are the expansion of its rule, less the days without school: for any rule that the form can make.
    [Fact]
    public async Task Rows_of_a_series_equal_the_expansion_of_its_rule()
    {
        await _agency.CloseAsync(10, 12);
        await _agency.CloseAsync(11, 11);
        var cadences = Gen.Select(Gen.Int[1, 3], Gen.Enum<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None).HashSet[1, 4], Gen.Bool, Gen.Int[0, 60], Gen.Int[1, 4]);
        await cadences.SampleAsync(async (every, days, monthly, offset, which) =>
        {
            var first = new LocalDate(2026, 10, 5).PlusDays(offset);
            var cadence = monthly ? new CadenceInput { Unit = CadenceUnit.Month, Every = every, Which = which, Days = [days.First()] } : new CadenceInput { Every = every, Days = [.. days] };
            var outcome = await _agency.RunAsync<ScheduleSeries, SeriesSaved>(Odalys, (o, c, id) =>
                o.RunAsync(c, id, _agency.Tuesdays with { FirstDay = first, EndsOn = first.PlusDays(100), Cadence = cadence, LeaveOut = true, Confirmed = true }));
            var expected = Enumerable.Range(0, 101).Select(first.PlusDays).Where(d => Falls(d, first, cadence)).ToList();
            if (outcome.Value is not { } saved)
            {
                Assert.Empty(expected);
                return;
            }
            var rows = await _agency.RowsAsync(saved.Series);
            var all = rows.Select(r => r.OriginalStart!.Value.Date).Concat(saved.Closed.Select(c => c.OnDay)).Order().ToList();
            Assert.Equal(expected, all);
            Assert.All(saved.Closed, c => Assert.True(c.OnDay.DayOfWeek > IsoDayOfWeek.Friday || c.Name == "Staff day"));
        }, iter: 40, threads: 1);
    }

    // Day by day, without any library: an independent reading of what the form says.
    private static bool Falls(LocalDate day, LocalDate first, CadenceInput cadence)
    {
        if (!cadence.Days.Contains(day.DayOfWeek))
            return false;
        if (cadence.Unit == CadenceUnit.Month)
            return (day.Day - 1) / 7 + 1 == cadence.Which && ((day.Year - first.Year) * 12 + day.Month - first.Month) % cadence.Every == 0;
        static LocalDate Monday(LocalDate d) => d.PlusDays(1 - (int)d.DayOfWeek);
        return Period.DaysBetween(Monday(first), Monday(day)) / 7 % cadence.Every == 0;
    }

    [Fact]
    public async Task Days_against_which_something_stands_are_named_and_left_out_by_a_tick()
    {
        await _agency.Team.VisitAsync(_agency.Team.Vision, _agency.Team.Bram, new(2026, 10, 20), new(9, 30));

        var refused = await _agency.RunAsync<ScheduleSeries, SeriesSaved>(Odalys, (o, c, id) => o.RunAsync(c, id, _agency.Tuesdays));
        var saved = await _agency.ScheduleAsync(_agency.Tuesdays with { LeaveOut = true });

        Assert.Equal(("LeaveOut", "Tuesday 20 October: The learner has a visit with Bram Nakamura from 9:30 to 10:15 am."),
            (Assert.Single(refused.Problems).Field, refused.Problems[0].Message));
        Assert.Equal([new LocalDate(2026, 10, 20)], saved.LeftOut);
        Assert.False((await _agency.OnAsync(saved.Series, 10, 20)).Live);
    }

    [Fact]
    public async Task One_visit_moves_by_itself_and_the_series_stays()
    {
        var series = await _agency.ScheduleAsync();
        var visit = await _agency.OnAsync(series.Series, 10, 13);

        var moved = await _agency.RunAsync<ChangeVisit, ChangeVisit.Saved>(Odalys, (o, c, id) => o.RunAsync(c, id,
            new() { Visit = visit.Id, Version = visit.Version, OnDay = new(2026, 10, 14), Start = new(13, 0), Minutes = 30 }));

        CalendarAgency.Value(moved);
        var row = await _agency.VisitAsync(visit.Id);
        Assert.Equal((new LocalDate(2026, 10, 14), new LocalTime(13, 0), 30, true, visit.Sequence + 1), (row.OnDay, row.StartTime, row.Minutes, row.Touched, row.Sequence));
        Assert.Equal(visit.OriginalStart, row.OriginalStart);
        Assert.Equal(new LocalDate(2026, 10, 20), (await _agency.OnAsync(series.Series, 10, 20)).OnDay);
    }

    [Fact]
    public async Task This_and_all_that_follow_end_the_series_and_begin_another_and_keep_what_was_touched()
    {
        var series = await _agency.ScheduleAsync();
        var touched = await _agency.OnAsync(series.Series, 11, 10);
        await _agency.RunAsync<ChangeVisit, ChangeVisit.Saved>(Odalys, (o, c, id) => o.RunAsync(c, id,
            new() { Visit = touched.Id, Version = touched.Version, OnDay = new(2026, 11, 10), Start = new(14, 0), Minutes = 45 }));

        var next = CalendarAgency.Value(await FollowAsync(await _agency.OnAsync(series.Series, 10, 27)));

        var before = await _agency.RowsAsync(series.Series);
        Assert.Equal("10/6 10/13 10/20 11/10", CalendarAgency.Days(before.Where(r => r.Live)));
        Assert.Equal(new LocalDate(2026, 10, 26), (await _agency.SeriesAsync(series.Series)).EndsOn);
        Assert.Equal([new KeptVisit(touched.Id, new(2026, 11, 10), VisitState.Planned)], next.Kept);
        var after = await _agency.RowsAsync(next.Series);
        Assert.Equal("10/27 11/3 11/17 11/24 12/1 12/8 12/15", CalendarAgency.Days(after));
        Assert.All(after, r => Assert.Equal(new LocalTime(10, 0), r.StartTime));
        Assert.Equal(series.Series, (await _agency.SeriesAsync(next.Series)).ContinuesId);
    }

    [Fact]
    public async Task All_change_from_today_on_and_logged_visits_stay()
    {
        var series = await _agency.ScheduleAsync();
        _agency.Agency.Clock.Advance(TimeSpan.FromDays(12)); // Wednesday 14 October
        var logged = await _agency.OnAsync(series.Series, 10, 13);
        await _agency.RunAsync<LogSession, Saved>(Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visits = [logged.Id] }));
        var any = await _agency.OnAsync(series.Series, 12, 8);

        var next = CalendarAgency.Value(await _agency.RunAsync<ChangeAll, SeriesSaved>(Odalys, (o, c, id) => o.RunAsync(c, id, new()
        {
            Visit = any.Id,
            Version = any.Version,
            Start = new(11, 0),
            Minutes = 45,
            EndsOn = new(2026, 12, 15),
            Cadence = new() { Days = [IsoDayOfWeek.Tuesday] },
        })));

        Assert.Equal("10/6 10/13", CalendarAgency.Days((await _agency.RowsAsync(series.Series)).Where(r => r.Live)));
        Assert.Equal("10/20 10/27 11/3 11/10 11/17 11/24 12/1 12/8 12/15", CalendarAgency.Days(await _agency.RowsAsync(next.Series)));
    }

    [Fact]
    public async Task Every_second_week_goes_on_counting_from_a_week_that_has_a_visit()
    {
        var series = await _agency.ScheduleAsync(_agency.Tuesdays with { Cadence = new() { Every = 2, Days = [IsoDayOfWeek.Tuesday] } });
        var any = await _agency.OnAsync(series.Series, 11, 3);
        _agency.Agency.Clock.Advance(TimeSpan.FromDays(10)); // Monday 12 October, a week without a visit

        var next = CalendarAgency.Value(await _agency.RunAsync<ChangeAll, SeriesSaved>(Odalys, (o, c, id) => o.RunAsync(c, id, new()
        {
            Visit = any.Id,
            Version = any.Version,
            Start = new(11, 0),
            Minutes = 45,
            EndsOn = new(2026, 12, 15),
            Cadence = new() { Every = 2, Days = [IsoDayOfWeek.Tuesday] },
        })));

        Assert.Equal("10/20 11/3 11/17 12/1 12/15", CalendarAgency.Days(await _agency.RowsAsync(next.Series)));
    }

    [Fact]
    public async Task Visits_are_handed_over_one_or_all_that_follow_to_somebody_on_the_team_only()
    {
        var series = await _agency.ScheduleAsync();
        var one = await _agency.OnAsync(series.Series, 10, 13);
        Task<Outcome<HandOver.Saved>> Give(VisitRow visit, int to, bool following) => _agency.RunAsync<HandOver, HandOver.Saved>(
            Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit.Id, Version = visit.Version, To = to, Following = following }));

        Assert.Equal("To", Assert.Single((await Give(one, _agency.Team.Priya, false)).Problems).Field);
        CalendarAgency.Value(await Give(one, _agency.Team.Bram, false));
        var following = CalendarAgency.Value(await Give(await _agency.OnAsync(series.Series, 10, 27), _agency.Team.Bram, true));

        Assert.Equal((_agency.Team.Bram, true), ((await _agency.VisitAsync(one.Id)).ProviderId, (await _agency.VisitAsync(one.Id)).Touched));
        Assert.All(await _agency.RowsAsync(following.Series!.Series), r => Assert.Equal(_agency.Team.Bram, r.ProviderId));
        Assert.Equal(Odalys, (await _agency.OnAsync(series.Series, 10, 20)).ProviderId);
    }

    [Fact]
    public async Task Cancelled_visit_keeps_its_reason_and_gives_its_time_free()
    {
        var series = await _agency.ScheduleAsync();
        var visit = await _agency.OnAsync(series.Series, 10, 13);

        CalendarAgency.Value(await _agency.RunAsync<CancelVisit, CancelVisit.Saved>(
            Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit.Id, Version = visit.Version, Reason = Reason.FamilyAskedToMove })));

        var row = await _agency.VisitAsync(visit.Id);
        Assert.Equal((VisitState.CalledOff, Reason.FamilyAskedToMove), (row.State, row.CalledOff!.Value));
        await _agency.Team.VisitAsync(day: new(2026, 10, 13), start: new(9, 15));
    }

    [Fact]
    public async Task Ended_series_has_no_visits_from_that_day_on()
    {
        var series = await _agency.ScheduleAsync();
        var visit = await _agency.OnAsync(series.Series, 11, 3);

        var ended = CalendarAgency.Value(await _agency.RunAsync<EndSeries, EndSeries.Saved>(
            Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit.Id, Version = visit.Version })));

        Assert.Equal(new LocalDate(2026, 11, 2), ended.LastDay);
        Assert.Equal("10/6 10/13 10/20 10/27", CalendarAgency.Days((await _agency.RowsAsync(series.Series)).Where(r => r.Live)));
    }

    [Fact]
    public async Task Providers_plan_their_own_visits_the_case_manager_all_and_others_find_nothing()
    {
        var own = _agency.Tuesdays with { EndsOn = new(2026, 10, 13) };
        async Task<IReadOnlyList<Problem>> Try(int by) =>
            (await _agency.RunAsync<ScheduleSeries, SeriesSaved>(by, (o, c, id) => o.RunAsync(c, id, own))).Problems;

        Assert.Equal([Problem.NotFound], await Try(_agency.Team.Bram));
        Assert.Equal([Problem.NotFound], await Try(_agency.Team.Priya));
        Assert.Equal([Problem.NotFound], await Try(_agency.Team.Ines));
        Assert.Empty(await Try(_agency.Team.Marisol));
    }

    [Fact]
    public async Task What_is_no_service_stands_in_the_calendar_and_cannot_be_logged()
    {
        var meeting = CalendarAgency.Value(await _agency.RunAsync<ScheduleVisit, ScheduleVisit.Saved>(_agency.Team.Marisol, (o, c, id) => o.RunAsync(c, id,
            new() { Learner = _agency.Team.Wren, Kind = VisitKind.PlanMeeting, OnDay = new(2026, 10, 7), Start = new(15, 0), Minutes = 60, Place = Place.School })));

        var logged = await _agency.RunAsync<LogSession, Saved>(_agency.Team.Marisol, (o, c, id) => o.RunAsync(c, id, new() { Visits = [meeting.Visit] }));

        var row = await _agency.VisitAsync(meeting.Visit);
        Assert.Equal((VisitKind.PlanMeeting, null, false), (row.Kind, row.ServiceId, row.LearnersTime));
        Assert.Contains("no service", Assert.Single(logged.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Night_job_writes_a_series_on_and_a_day_whose_closure_was_taken_back()
    {
        var closure = await _agency.CloseAsync(10, 13);
        var series = await _agency.ScheduleAsync();
        Assert.Equal(0, await _agency.Agency.Get<TopUpSeries>().RunAsync(_agency.Agency.Id));

        await _agency.Agency.ChangeAsync<ClosureRow>(c => c.Id == closure.Id, c => c.Live = false);
        await _agency.Agency.ChangeAsync<SeriesRow>(s => s.Id == series.Series, s => (s.EndsOn, s.WrittenTo) = (new(2026, 12, 22), new(2026, 12, 15)));

        Assert.Equal(2, await _agency.Agency.Get<TopUpSeries>().RunAsync(_agency.Agency.Id));
        Assert.Equal(0, await _agency.Agency.Get<TopUpSeries>().RunAsync(_agency.Agency.Id));
        Assert.Equal("10/6 10/13 10/20 10/27 11/3 11/10 11/17 11/24 12/1 12/8 12/15 12/22", CalendarAgency.Days(await _agency.RowsAsync(series.Series)));
    }

    [Fact]
    public async Task Amended_service_takes_its_series_with_it()
    {
        var series = await _agency.ScheduleAsync();
        await _agency.Agency.ChangeAsync<SeriesRow>(s => s.Id == series.Series, s => s.EndsOn = null);

        var amended = await _agency.RunAsync<AmendService, AmendService.Saved>(_agency.Team.Marisol, (o, c, id) => o.RunAsync(c, id, new()
        {
            Learner = _agency.Team.Wren,
            Service = _agency.Team.Vision.Id,
            Version = _agency.Team.Vision.Version,
            FromDay = new(2026, 11, 2),
            Amount = new() { Quantity = 240, EveryUnit = EveryUnit.Month, EveryCount = 1, Reason = "Counted by months from now on", PlanWords = "240 minutes a month" },
        }));

        CalendarAgency.Value(amended);
        Assert.NotEqual(_agency.Team.Vision.Id, (await _agency.SeriesAsync(series.Series)).ServiceId);
        Assert.Equal((await _agency.SeriesAsync(series.Series)).ServiceId, (await _agency.OnAsync(series.Series, 11, 3)).ServiceId);
        Assert.Equal(_agency.Team.Vision.Id, (await _agency.OnAsync(series.Series, 10, 27)).ServiceId);
    }
}
