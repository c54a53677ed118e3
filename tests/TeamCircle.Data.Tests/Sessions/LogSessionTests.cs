using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Sessions;

public sealed class LogSessionTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"LOG{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Outcome<Saved>> LogAsync(int person, LogSession.Input input, Guid? operation = null) =>
        await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(person), operation ?? Guid.CreateVersion7(), input);

    private static LogSession.Input AsPlanned(params VisitRow[] visits) => new() { Visits = [.. visits.Select(v => v.Id)] };

    private LogSession.Input New(string start = "9:00", string end = "9:45") =>
        new() { Services = [_team.Vision.Id], OnDay = new(2026, 9, 16), Start = start, End = end };

    private Task<List<SessionRow>> SessionsAsync() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Sessions.OrderBy(s => s.Id).ToListAsync());

    private Task<VisitRow> VisitAsync(Guid id) => _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Visits.SingleAsync(v => v.Id == id));

    [Fact]
    public async Task Visit_that_went_as_planned_takes_its_times_from_the_plan()
    {
        var visit = await _team.VisitAsync();

        var saved = await LogAsync(_team.Odalys, AsPlanned(visit));

        Assert.Empty(saved.Problems);
        var session = Assert.Single(await SessionsAsync());
        Assert.Equal((new LocalTime(9, 0), new LocalTime(9, 45), 45, false), (session.StartTime, session.EndTime, session.Credited, session.Observed));
        Assert.Equal((_team.Odalys, _team.Wren, SessionOrigin.Page), (session.RecordedBy, session.LearnerId, session.Origin));
        Assert.Equal(VisitState.Logged, (await VisitAsync(visit.Id)).State);
    }

    [Fact]
    public async Task Typed_end_is_observed_and_the_visit_carries_the_actual_times_beside_the_planned_ones()
    {
        var visit = await _team.VisitAsync();

        await LogAsync(_team.Odalys, AsPlanned(visit) with { Start = "9:00", End = "930", Reason = Reason.LearnerUnwell, Note = " tired " });

        var session = Assert.Single(await SessionsAsync());
        Assert.True(session.Observed);
        Assert.Equal((30, "tired"), (session.Credited, session.Note));
        var logged = await VisitAsync(visit.Id);
        Assert.Equal((30, new LocalTime(9, 0), 45), (logged.Minutes, logged.PlannedStart!.Value, logged.PlannedMinutes!.Value));
    }

    [Fact]
    public async Task Start_typed_otherwise_than_planned_asks_for_the_end()
    {
        var visit = await _team.VisitAsync();

        var refused = await LogAsync(_team.Odalys, AsPlanned(visit) with { Start = "9:10" });

        Assert.Equal("End", Assert.Single(refused.Problems).Field);
        Assert.Empty(await SessionsAsync());
    }

    [Fact]
    public async Task Times_that_cannot_be_read_and_a_partner_who_is_none_are_named_at_once()
    {
        var visit = await _team.VisitAsync();

        var refused = await LogAsync(_team.Odalys, AsPlanned(visit) with { Start = "soon", End = "later", PartnerId = _team.Priya });

        Assert.Equal(["Start", "End", "PartnerId"], refused.Problems.Select(p => p.Field));
    }

    [Fact]
    public async Task Visit_not_offered_takes_no_time_so_that_another_can_be_given_then()
    {
        var visit = await _team.VisitAsync();
        await LogAsync(_team.Odalys, AsPlanned(visit) with { Outcome = VisitOutcome.NotOffered, Reason = Reason.ProviderUnwell });

        var another = await LogAsync(_team.Odalys, New() with { OnDay = visit.OnDay });

        Assert.Empty(another.Problems);
        Assert.Equal([0, 45], (await SessionsAsync()).Select(s => s.Credited));
    }

    [Fact]
    public async Task Visit_that_nobody_had_scheduled_is_logged_with_its_warnings()
    {
        var saved = await LogAsync(_team.Bram, New() with { Place = Place.School, PaysOn = new(2026, 9, 8) });

        Assert.Equal(2, saved.Value!.Notices.Count);
        var visit = await VisitAsync(saved.Value.Visit);
        Assert.Equal((_team.Bram, VisitState.Logged, null), (visit.ProviderId, visit.State, visit.PlannedStart));
    }

    [Fact]
    public async Task Case_manager_may_log_for_somebody_on_the_team_and_for_nobody_else()
    {
        Assert.Empty((await LogAsync(_team.Marisol, New() with { ProviderId = _team.Bram })).Problems);
        Assert.Equal("ProviderId", Assert.Single((await LogAsync(_team.Marisol, New("11:00", "11:30") with { ProviderId = _team.Priya })).Problems).Field);
    }

    [Theory]
    [InlineData(nameof(TestTeam.Bram))] // on the team, but the visit is Odalys's
    [InlineData(nameof(TestTeam.Ines))] // family
    [InlineData(nameof(TestTeam.Priya))] // works with other learners
    public async Task Somebody_elses_visit_is_as_if_it_did_not_exist(string person)
    {
        var visit = await _team.VisitAsync();

        var refused = await LogAsync((int)typeof(TestTeam).GetProperty(person)!.GetValue(_team)!, AsPlanned(visit));

        Assert.Equal([Problem.NotFound], refused.Problems);
        Assert.Empty(await SessionsAsync());
    }

    [Fact]
    public async Task Another_learners_service_and_an_unknown_visit_are_not_found()
    {
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);

        Assert.Equal([Problem.NotFound], (await LogAsync(_team.Marisol, New() with { Services = [jonahs.Id] })).Problems);
        Assert.Equal([Problem.NotFound], (await LogAsync(_team.Odalys, new() { Visits = [Guid.CreateVersion7()] })).Problems);
        Assert.Equal([Problem.NotFound], (await LogAsync(_team.Odalys, New() with { ProviderId = _team.Bram })).Problems);
    }

    [Fact]
    public async Task Same_form_sent_twice_saves_once_and_answers_the_same()
    {
        var (operation, input) = (Guid.CreateVersion7(), New());

        var first = await LogAsync(_team.Odalys, input, operation);
        var again = await LogAsync(_team.Odalys, input, operation);

        Assert.Equal(first.Value!.Sessions, again.Value!.Sessions);
        Assert.Single(await SessionsAsync());
    }

    [Fact]
    public async Task Fifty_at_once_log_one_visit_once_and_the_others_are_told()
    {
        var visit = await _team.VisitAsync();
        var caller = await _team.CallerAsync(_team.Odalys);

        var all = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ =>
            Task.Run(() => _agency.Get<LogSession>().RunAsync(caller, Guid.CreateVersion7(), AsPlanned(visit)))));

        Assert.Single(all, o => o.Value is not null);
        Assert.All(all.Where(o => o.Value is null), o => Assert.Equal("Version", Assert.Single(o.Problems).Field));
        Assert.Single(await SessionsAsync());
    }

    [Fact]
    public async Task Fifty_at_once_book_one_person_once()
    {
        var caller = await _team.CallerAsync(_team.Odalys);
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);

        var all = await Task.WhenAll(Enumerable.Range(0, 50).Select(i => Task.Run(() => _agency.Get<LogSession>().RunAsync(
            caller, Guid.CreateVersion7(), New($"9:{i % 10:00}") with { Services = [i % 2 == 0 ? jonahs.Id : _team.Vision.Id] }))));

        Assert.Single(all, o => o.Value is not null);
        Assert.All(all.Where(o => o.Value is null), o => Assert.Equal("Start", Assert.Single(o.Problems).Field));
        Assert.Single(await SessionsAsync());
    }

    [Fact]
    public async Task Learner_is_not_in_two_places_at_once()
    {
        await _team.VisitAsync();

        var refused = await LogAsync(_team.Bram, New("9:30", "10:00") with { OnDay = new(2026, 9, 15) });

        Assert.Contains("learner already has a visit", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Group_session_gives_each_learner_the_whole_time()
    {
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);

        var saved = await LogAsync(_team.Odalys, New() with { Services = [_team.Vision.Id, jonahs.Id], Format = SessionFormat.Group });

        Assert.Equal(2, saved.Value!.Sessions.Count);
        Assert.All(await SessionsAsync(), s => Assert.Equal(45, s.Credited));
        Assert.Single(await GroupsAsync());
    }

    [Fact]
    public async Task Group_logged_learner_by_learner_is_still_one_group()
    {
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);

        await LogAsync(_team.Odalys, New() with { Format = SessionFormat.Group });
        var second = await LogAsync(_team.Odalys, New() with { Services = [jonahs.Id], Format = SessionFormat.Group });

        Assert.Empty(second.Problems);
        Assert.Single(await GroupsAsync());
    }

    private Task<List<long>> GroupsAsync() =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Visits.Select(v => v.GroupNo).Distinct().ToListAsync());

    [Fact]
    public async Task Visit_that_was_moved_meanwhile_is_shown_again()
    {
        var visit = await _team.VisitAsync();

        var refused = await LogAsync(_team.Odalys, AsPlanned(visit) with { Version = visit.Version + 1 });

        Assert.Equal("Version", Assert.Single(refused.Problems).Field);
    }

    [Fact]
    public async Task Closed_period_takes_nothing_more()
    {
        var visit = await _team.VisitAsync();
        await ClosePeriodAsync();

        var refused = await LogAsync(_team.Odalys, AsPlanned(visit));

        Assert.Contains("closed", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
        Assert.Empty(await SessionsAsync());
        Assert.Equal(VisitState.Planned, (await VisitAsync(visit.Id)).State);
    }

    [Fact]
    public async Task Make_up_given_after_a_closed_period_pays_for_it_and_one_given_in_it_is_refused()
    {
        await _team.VisitAsync();
        await ClosePeriodAsync();
        _agency.Clock.SetUtcNow(new DateTimeOffset(2026, 10, 22, 18, 0, 0, TimeSpan.Zero));

        Assert.Empty((await LogAsync(_team.Odalys, New() with { OnDay = new(2026, 10, 20) })).Problems);
        Assert.Empty((await LogAsync(_team.Odalys, New() with { OnDay = new(2026, 10, 21), PaysOn = new(2026, 9, 8) })).Problems);
        Assert.Contains("closed", Assert.Single((await LogAsync(_team.Odalys, New() with { OnDay = _team.Period.EndDay, PaysOn = new(2026, 9, 8) })).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_row_that_is_written_leaves_a_change_with_person_and_operation()
    {
        var visit = await _team.VisitAsync();
        var operation = Guid.CreateVersion7();

        await LogAsync(_team.Odalys, AsPlanned(visit), operation);

        var changes = await _agency.Portal.ReadAsync(_agency.WholeAgency, db =>
            db.Changes.Where(c => c.OperationId == operation).OrderBy(c => c.TableName).ToListAsync());
        Assert.Equal([("sessions", "insert"), ("visits", "update")], changes.Select(c => (c.TableName, c.Act)));
        Assert.All(changes, c => Assert.Equal((_team.Odalys, _team.Wren), (c.PersonId, c.LearnerId!.Value)));
    }

    private async Task ClosePeriodAsync()
    {
        await using var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted);
        var count = await work.Db.LearnerPeriods.SingleAsync(p => p.LearnerId == _team.Wren && p.PeriodId == _team.Period.Id);
        (count.ClosedAt, count.ClosedBy) = (Instant.FromUtc(2026, 10, 2, 0, 0), _team.Marisol);
        await work.Db.SaveChangesAsync();
        await work.CommitAsync();
    }
}
