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

public sealed class CorrectSessionTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private VisitRow _visit = null!;
    private Guid _first;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"CORRECT{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _visit = await _team.VisitAsync();
        _first = await LogAsync(new() { Visits = [_visit.Id] });
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Guid> LogAsync(LogSession.Input input) =>
        Assert.Single((await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), input)).Value!.Sessions);

    private async Task<Outcome<Saved>> CorrectAsync(int person, CorrectSession.Input input) =>
        await _agency.Get<CorrectSession>().RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), input);

    private async Task<Outcome<TakeBackSession.TakenBack>> TakeBackAsync(int person, Guid session, string? why = null) =>
        await _agency.Get<TakeBackSession>().RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), new() { Session = session, Why = why });

    private CorrectSession.Input Ended930 => new() { Session = _first, Start = "9:00", End = "9:30", Why = "Read the wrong line of my notes" };

    private Task<List<SessionRow>> SessionsAsync() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Sessions.OrderBy(s => s.Id).ToListAsync());

    private Task<VisitRow> VisitAsync() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Visits.SingleAsync(v => v.Id == _visit.Id));

    [Fact]
    public async Task Correction_is_a_new_session_that_names_the_old_one_and_says_why()
    {
        var corrected = await CorrectAsync(_team.Odalys, Ended930);

        Assert.Empty(corrected.Problems);
        var sessions = await SessionsAsync();
        Assert.Equal([false, true], sessions.Select(s => s.Live));
        Assert.Equal((_first, "Read the wrong line of my notes", 30, true), (sessions[1].Replaces!.Value, sessions[1].CorrectionReason, sessions[1].Credited, sessions[1].Observed));
        Assert.Equal(45, sessions[0].Credited);
        Assert.Equal((30, 45), ((await VisitAsync()).Minutes, (await VisitAsync()).PlannedMinutes!.Value));
    }

    [Fact]
    public async Task Correction_of_words_only_keeps_times_from_the_plan_as_such()
    {
        await CorrectAsync(_team.Odalys, new() { Session = _first, Start = "9:00", End = "9:45", Note = "With the new switch", Why = "Forgot the note" });

        Assert.False((await SessionsAsync())[1].Observed);
    }

    [Fact]
    public async Task Corrections_form_a_chain_of_which_the_last_stands()
    {
        var second = Assert.Single((await CorrectAsync(_team.Odalys, Ended930)).Value!.Sessions);
        var third = Assert.Single((await CorrectAsync(_team.Marisol, Ended930 with { Session = second, End = "9:40" })).Value!.Sessions);

        var sessions = await SessionsAsync();
        Assert.Equal([null, _first, second], sessions.Select(s => s.Replaces));
        Assert.Equal(third, Assert.Single(sessions, s => s.Live).Id);
        Assert.Equal(_team.Marisol, sessions[2].RecordedBy);
        Assert.Equal(_team.Odalys, sessions[2].ProviderId);
    }

    [Fact]
    public async Task Correction_needs_a_reason_and_comes_with_all_problems()
    {
        var refused = await CorrectAsync(_team.Odalys, Ended930 with { Why = " ", End = "8:00 am", OnDay = new(2026, 9, 16) });

        Assert.Equal(["End", "Why", "OnDay"], refused.Problems.Select(p => p.Field));
        Assert.True(Assert.Single(await SessionsAsync()).Live);
    }

    [Fact]
    public async Task Two_corrections_at_once_leave_one_standing_and_tell_the_other()
    {
        var caller = await _team.CallerAsync(_team.Odalys);

        var all = await Task.WhenAll(Enumerable.Range(0, 20).Select(i => Task.Run(() =>
            _agency.Get<CorrectSession>().RunAsync(caller, Guid.CreateVersion7(), Ended930 with { End = $"9:{30 + i % 10}" }))));

        Assert.Single(all, o => o.Value is not null);
        Assert.All(all.Where(o => o.Value is null), o => Assert.Equal("Version", Assert.Single(o.Problems).Field));
        Assert.Single(await SessionsAsync(), s => s.Live);
    }

    [Fact]
    public async Task Somebody_elses_session_is_as_if_it_did_not_exist()
    {
        Assert.Equal([Problem.NotFound], (await CorrectAsync(_team.Bram, Ended930)).Problems);
        Assert.Equal([Problem.NotFound], (await CorrectAsync(_team.Ines, Ended930)).Problems);
        Assert.Equal([Problem.NotFound], (await CorrectAsync(_team.Priya, Ended930)).Problems);
        Assert.Equal([Problem.NotFound], (await CorrectAsync(_team.Odalys, Ended930 with { ProviderId = _team.Bram })).Problems);
        Assert.Equal([Problem.NotFound], (await TakeBackAsync(_team.Bram, _first)).Problems);
    }

    [Fact]
    public async Task Case_manager_can_say_that_somebody_else_gave_it()
    {
        await CorrectAsync(_team.Marisol, Ended930 with { ProviderId = _team.Bram });

        Assert.Equal(_team.Bram, (await SessionsAsync())[1].ProviderId);
        Assert.Equal(_team.Bram, (await VisitAsync()).ProviderId);
    }

    [Fact]
    public async Task Correction_to_a_time_when_the_person_was_elsewhere_is_refused_and_changes_nothing()
    {
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
        await _team.VisitAsync(jonahs, start: new(10, 0));

        var refused = await CorrectAsync(_team.Odalys, Ended930 with { End = "10:15" });

        Assert.Equal("Start", Assert.Single(refused.Problems).Field);
        Assert.True(Assert.Single(await SessionsAsync()).Live);
    }

    [Fact]
    public async Task Session_that_was_never_given_gives_the_time_back()
    {
        await CorrectAsync(_team.Odalys, Ended930 with { Outcome = VisitOutcome.NotOffered, Reason = Reason.ProviderUnwell });

        var visit = await VisitAsync();
        Assert.Equal((false, 45), (visit.TakesTime, visit.Minutes));
        Assert.Equal(0, (await SessionsAsync())[1].Credited);
    }

    [Fact]
    public async Task Taking_back_makes_the_visit_planned_again_and_keeps_what_was_recorded()
    {
        await CorrectAsync(_team.Odalys, Ended930);
        var standing = (await SessionsAsync())[1].Id;

        Assert.True((await TakeBackAsync(_team.Marisol, standing, "Logged for the wrong day")).Value!.IsPlannedAgain);

        var visit = await VisitAsync();
        Assert.Equal((VisitState.Planned, 45, null), (visit.State, visit.Minutes, visit.PlannedStart));
        Assert.DoesNotContain(await SessionsAsync(), s => s.Live);
        Assert.Equal("Logged for the wrong day", (await SessionsAsync())[1].TakenBackReason);
        Assert.NotEqual(Guid.Empty, await LogAsync(new() { Visits = [_visit.Id] }));
    }

    [Fact]
    public async Task Taking_back_needs_a_reason_unless_it_is_ones_own_of_today()
    {
        Assert.Equal("Why", Assert.Single((await TakeBackAsync(_team.Marisol, _first)).Problems).Field);
        _agency.Clock.SetUtcNow(await RecordedAtAsync() + TimeSpan.FromDays(2));
        Assert.Equal("Why", Assert.Single((await TakeBackAsync(_team.Odalys, _first)).Problems).Field);
        _agency.Clock.SetUtcNow(await RecordedAtAsync() + TimeSpan.FromDays(3));
        Assert.NotNull((await TakeBackAsync(_team.Odalys, _first, "Wrong learner")).Value);
        Assert.Equal("Version", Assert.Single((await TakeBackAsync(_team.Odalys, _first, "Wrong learner")).Problems).Field);
    }

    private async Task<DateTimeOffset> RecordedAtAsync() => (await SessionsAsync())[0].RecordedAt.ToDateTimeOffset();

    [Fact]
    public async Task Visit_that_nobody_had_scheduled_is_gone_when_taken_back()
    {
        var session = await LogAsync(new() { Services = [_team.Vision.Id], OnDay = new(2026, 9, 16), Start = "9:00", End = "9:45" });

        Assert.False((await TakeBackAsync(_team.Odalys, session, "Was never there")).Value!.IsPlannedAgain);
    }

    [Fact]
    public async Task Visit_that_nobody_had_scheduled_can_be_corrected_to_another_day()
    {
        var session = await LogAsync(new() { Services = [_team.Vision.Id], OnDay = new(2026, 9, 16), Start = "9:00", End = "9:45" });

        var corrected = await CorrectAsync(_team.Odalys, new() { Session = session, OnDay = new(2026, 9, 17), Start = "9:00", End = "9:45", Why = "Was the day after" });

        Assert.Equal(new LocalDate(2026, 9, 17), corrected.Value!.OnDay);
    }
}
