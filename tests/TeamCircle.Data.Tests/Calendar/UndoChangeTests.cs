using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>One act takes back the last change, while nothing of it was logged.</summary>
public sealed class UndoChangeTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private CalendarAgency _agency = null!;

    public async ValueTask InitializeAsync() => _agency = await CalendarAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private int Odalys => _agency.Team.Odalys;

    private Task<Guid> LastActAsync(Guid visit) => _agency.Agency.Portal.ReadAsync(_agency.Agency.WholeAgency, db => db.Changes
        .Where(c => c.TableName == "visits" && c.RowKey == visit.ToString()).OrderByDescending(c => c.Id).Select(c => c.OperationId ?? Guid.Empty).FirstAsync());

    private async Task<Outcome<UndoChange.Saved>> UndoAsync(Guid visit, int? by = null, Guid? act = null)
    {
        var last = act ?? await LastActAsync(visit);
        return await _agency.RunAsync<UndoChange, UndoChange.Saved>(by ?? Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit, Act = last }));
    }

    private Task<Outcome<ChangeVisit.Saved>> MoveAsync(VisitRow visit) => _agency.RunAsync<ChangeVisit, ChangeVisit.Saved>(Odalys, (o, c, id) =>
        o.RunAsync(c, id, new() { Visit = visit.Id, Version = visit.Version, OnDay = new(2026, 10, 14), Start = new(13, 0), Minutes = 30 }));

    private static object Facts(VisitRow v) => (v.OnDay, v.StartTime, v.Minutes, v.ProviderId, v.State, v.CalledOff, v.Live, v.Touched, v.GroupNo, v.TogetherNo, v.During);

    [Fact]
    public async Task Moved_visit_goes_back_to_what_it_was()
    {
        var series = await _agency.ScheduleAsync();
        var before = await _agency.OnAsync(series.Series, 10, 13);
        CalendarAgency.Value(await MoveAsync(before));

        CalendarAgency.Value(await UndoAsync(before.Id));

        var after = await _agency.VisitAsync(before.Id);
        Assert.Equal(Facts(before), Facts(after));
        Assert.Equal(before.Sequence + 2, after.Sequence);
    }

    [Fact]
    public async Task All_that_follow_go_back_together_with_their_series()
    {
        var series = await _agency.ScheduleAsync();
        var before = await _agency.RowsAsync(series.Series);
        var visit = before[3];
        var next = CalendarAgency.Value(await _agency.RunAsync<ChangeFollowing, SeriesSaved>(Odalys, (o, c, id) => o.RunAsync(c, id, new()
        {
            Visit = visit.Id,
            Version = visit.Version,
            Start = new(9, 15),
            Minutes = 45,
            EndsOn = new(2026, 12, 15),
            Cadence = new() { Days = [IsoDayOfWeek.Tuesday] },
        })));

        CalendarAgency.Value(await UndoAsync(next.First!.Value));

        Assert.Equal(before.Select(Facts), (await _agency.RowsAsync(series.Series)).Select(Facts));
        Assert.Equal(new LocalDate(2026, 12, 15), (await _agency.SeriesAsync(series.Series)).EndsOn);
        Assert.All(await _agency.RowsAsync(next.Series), r => Assert.False(r.Live));
        Assert.False((await _agency.SeriesAsync(next.Series)).Live);
    }

    [Fact]
    public async Task New_series_goes_as_a_whole_and_a_cancelled_visit_comes_back()
    {
        var series = await _agency.ScheduleAsync();
        var visit = await _agency.OnAsync(series.Series, 10, 13);
        CalendarAgency.Value(await _agency.RunAsync<CancelVisit, CancelVisit.Saved>(
            Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit.Id, Version = visit.Version, Reason = Reason.FamilyAway })));

        Assert.Equal(Problem.VersionField, Assert.Single((await UndoAsync((await _agency.OnAsync(series.Series, 10, 6)).Id)).Problems).Field);
        CalendarAgency.Value(await UndoAsync(visit.Id));
        Assert.Equal((VisitState.Planned, null), ((await _agency.VisitAsync(visit.Id)).State, (await _agency.VisitAsync(visit.Id)).CalledOff));

        var other = await _agency.ScheduleAsync(_agency.Tuesdays with { Start = new(14, 0), Confirmed = true });
        Assert.True(CalendarAgency.Value(await UndoAsync(other.First!.Value)).IsGone);
        Assert.All(await _agency.RowsAsync(other.Series), r => Assert.False(r.Live));
    }

    [Fact]
    public async Task Logged_visit_cannot_be_undone_nor_an_act_that_was_not_shown()
    {
        var visit = await _agency.OnAsync((await _agency.ScheduleAsync()).Series, 10, 6);
        Assert.Equal(Problem.VersionField, Assert.Single((await UndoAsync(visit.Id, act: Guid.CreateVersion7())).Problems).Field);
        _agency.Agency.Clock.Advance(TimeSpan.FromDays(5));
        CalendarAgency.Value(await _agency.RunAsync<LogSession, Saved>(Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visits = [visit.Id] })));

        Assert.Equal(Problem.VersionField, Assert.Single((await UndoAsync(visit.Id)).Problems).Field);
    }

    [Fact]
    public async Task Who_handed_over_may_take_it_back_and_a_stranger_finds_nothing()
    {
        var visit = await _agency.OnAsync((await _agency.ScheduleAsync()).Series, 10, 13);
        CalendarAgency.Value(await _agency.RunAsync<HandOver, HandOver.Saved>(
            Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit.Id, Version = visit.Version, To = _agency.Team.Bram })));

        Assert.Equal([Problem.NotFound], (await UndoAsync(visit.Id, _agency.Team.Priya)).Problems);
        CalendarAgency.Value(await UndoAsync(visit.Id));
        Assert.Equal(Odalys, (await _agency.VisitAsync(visit.Id)).ProviderId);
    }

    [Fact]
    public async Task Time_that_was_given_away_meanwhile_is_not_taken_back()
    {
        var visit = await _agency.OnAsync((await _agency.ScheduleAsync()).Series, 10, 13);
        CalendarAgency.Value(await MoveAsync(visit));
        await _agency.Team.VisitAsync(day: new(2026, 10, 13), start: new(9, 0));

        Assert.Equal("Start", Assert.Single((await UndoAsync(visit.Id)).Problems).Field);
        Assert.Equal(new LocalDate(2026, 10, 14), (await _agency.VisitAsync(visit.Id)).OnDay);
    }
}
