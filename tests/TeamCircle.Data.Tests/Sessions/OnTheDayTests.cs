using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Tests.Calendar;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Sessions;

/// <summary>Call off and running late, by one tap on the day.</summary>
public sealed class OnTheDayTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private CalendarAgency _agency = null!;

    public async ValueTask InitializeAsync() => _agency = await CalendarAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private Task<VisitRow> TodayAsync() => _agency.Team.VisitAsync(day: new(2026, 10, 2), start: new(13, 0));

    private Task<Outcome<CallOff.CalledOff>> CallOffAsync(VisitRow visit, Reason? reason, int? by = null) => _agency.RunAsync<CallOff, CallOff.CalledOff>(
        by ?? _agency.Team.Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit.Id, Version = visit.Version, Reason = reason }));

    [Fact]
    public async Task Called_off_visit_is_on_record_as_not_offered_with_its_reason_and_names_what_a_make_up_would_pay()
    {
        var visit = await TodayAsync();

        var saved = CalendarAgency.Value(await CallOffAsync(visit, Reason.ProviderUnwell));

        Assert.Equal((_agency.Team.Wren, _agency.Team.Vision.Id, new LocalDate(2026, 10, 2)), (saved.Learner, saved.Service, saved.OnDay));
        var row = await _agency.VisitAsync(visit.Id);
        Assert.Equal((VisitState.Logged, false, 1), (row.State, row.TakesTime, row.Sequence));
        var session = await _agency.Agency.Portal.ReadAsync(_agency.Agency.WholeAgency, db => db.Sessions.SingleAsync(s => s.VisitId == visit.Id));
        Assert.Equal((VisitOutcome.NotOffered, Reason.ProviderUnwell, 0), (session.Outcome, session.Reason!.Value, session.Credited));
    }

    [Fact]
    public async Task Call_off_needs_a_reason_the_day_itself_and_the_person_whose_visit_it_is()
    {
        var visit = await TodayAsync();
        var tomorrow = await _agency.Team.VisitAsync(day: new(2026, 10, 5));

        Assert.Equal("Reason", Assert.Single((await CallOffAsync(visit, null)).Problems).Field);
        Assert.Contains("visits of today", Assert.Single((await CallOffAsync(tomorrow, Reason.ProviderUnwell)).Problems).Message, StringComparison.Ordinal);
        Assert.Equal([Problem.NotFound], (await CallOffAsync(visit, Reason.ProviderUnwell, _agency.Team.Bram)).Problems);
        Assert.Equal(VisitState.Planned, (await _agency.VisitAsync(visit.Id)).State);
    }

    [Fact]
    public async Task Running_late_says_when_and_leaves_the_plan()
    {
        var visit = await TodayAsync();
        Task<Outcome<RunningLate.Saved>> Late(int minutes, int version) => _agency.RunAsync<RunningLate, RunningLate.Saved>(
            _agency.Team.Odalys, (o, c, id) => o.RunAsync(c, id, new() { Visit = visit.Id, Version = version, Minutes = minutes }));

        Assert.Equal(new LocalTime(13, 20), CalendarAgency.Value(await Late(20, 1)).Expected);
        Assert.Equal(Problem.VersionField, Assert.Single((await Late(10, 1)).Problems).Field);
        var row = await _agency.VisitAsync(visit.Id);
        Assert.Equal((new LocalTime(13, 0), new LocalTime(13, 20)), (row.StartTime, row.ExpectedStart!.Value));
        Assert.Null(CalendarAgency.Value(await Late(0, 2)).Expected);
    }
}
