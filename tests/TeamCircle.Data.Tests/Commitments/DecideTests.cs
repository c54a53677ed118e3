using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>Wren's vision service owes 60 minutes a week; the week of 14 September is past.</summary>
public sealed class DecideTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private int _dele;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"DECIDE{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _dele = await _team.PersonAsync("Dele Okwarre", Role.Administrator, Relation.Team);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private Decide.Input NotOwed(int minutes) => new()
    {
        ServiceId = _team.Vision.Id,
        OnDay = new(2026, 9, 15),
        Amount = minutes,
        Kind = DecisionKind.NotOwed,
        TookPart = [_team.Marisol],
        FamilyToldOn = new(2026, 9, 25),
        Why = "Rest after the fever was what she needed",
    };

    private async Task<Outcome<Decide.Decided>> DecideAsync(Decide.Input input, int? person = null) =>
        await _agency.Get<Decide>().RunAsync(await _team.CallerAsync(person ?? _team.Marisol), Guid.CreateVersion7(), input);

    private async Task MissAsync(int day, Reason reason, int minutes = 30)
    {
        var visit = await _team.VisitAsync(day: new(2026, 9, day), minutes: minutes);
        var logged = await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(),
            new() { Visits = [visit.Id], Outcome = VisitOutcome.NotOffered, Reason = reason });
        Assert.Empty(logged.Problems);
    }

    private Task<List<DecisionRow>> DecisionsAsync() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Decisions.ToListAsync());

    [Fact]
    public async Task Case_manager_alone_decides_not_owed_what_the_child_explains_and_no_more()
    {
        await MissAsync(15, Reason.LearnerUnwell);

        Assert.Equal("TookPart", Assert.Single((await DecideAsync(NotOwed(60))).Problems).Field);
        Assert.Empty((await DecideAsync(NotOwed(30))).Value!.Notices);
        Assert.Equal("TookPart", Assert.Single((await DecideAsync(NotOwed(30))).Problems).Field);

        var decision = Assert.Single(await DecisionsAsync());
        Assert.Equal((30, _team.Marisol, _team.Wren), (decision.Amount, Assert.Single(decision.DecidedBy), decision.LearnerId));
    }

    [Fact]
    public async Task Agencys_side_takes_a_second_person_and_where_there_is_one_a_director()
    {
        await MissAsync(15, Reason.ProviderUnwell);

        Assert.Equal("TookPart", Assert.Single((await DecideAsync(NotOwed(30))).Problems).Field);
        Assert.NotNull((await DecideAsync(NotOwed(30) with { TookPart = [_team.Marisol, _dele] })).Value);

        await _team.PersonAsync("Yusra Kettle", Role.Director, Relation.Team);
        Assert.Contains("director", Assert.Single((await DecideAsync(NotOwed(30) with { TookPart = [_team.Marisol, _dele] })).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Make_up_leaves_the_agencys_part_lacking_so_that_one_person_cannot_drop_it()
    {
        await MissAsync(15, Reason.LearnerUnwell);
        await MissAsync(16, Reason.ProviderUnwell);
        await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(),
            new() { Services = [_team.Vision.Id], OnDay = new(2026, 9, 22), Start = "9:00", End = "9:30", PaysOn = new(2026, 9, 15) });

        Assert.Equal("TookPart", Assert.Single((await DecideAsync(NotOwed(30))).Problems).Field);
    }

    [Fact]
    public async Task More_than_lacks_is_stored_and_said()
    {
        await MissAsync(15, Reason.FamilyAway, 60);

        Assert.Contains("Only 60 lack", Assert.Single((await DecideAsync(NotOwed(90))).Value!.Notices), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_is_decided_by_default()
    {
        var refused = await DecideAsync(NotOwed(30) with { Kind = null });

        Assert.Equal("Kind", Assert.Single(refused.Problems).Field);
    }

    [Fact]
    public async Task People_without_a_part_in_the_agency_are_written_not_chosen() =>
        Assert.Contains((await DecideAsync(NotOwed(30) with { TookPart = [_team.Marisol, _team.Ines], Kind = DecisionKind.Meeting })).Problems, p => p.Field == "TookPart");

    [Fact]
    public async Task Only_the_learners_case_manager_decides()
    {
        Assert.Equal([Problem.NotFound], (await DecideAsync(NotOwed(30), _team.Odalys)).Problems);
        Assert.Equal([Problem.NotFound], (await DecideAsync(NotOwed(30), _team.Ines)).Problems);
        Assert.Equal([Problem.NotFound], (await DecideAsync(NotOwed(30), _dele)).Problems);
        Assert.Equal([Problem.NotFound], (await DecideAsync(NotOwed(30) with { ServiceId = 999_999 })).Problems);
        Assert.Equal([Problem.NotFound], (await DecideAsync(NotOwed(30) with { GoalId = _team.Gaze.Id })).Problems);
    }

    [Fact]
    public async Task Day_without_a_window_has_nothing_to_decide() =>
        Assert.Contains((await DecideAsync(NotOwed(30) with { OnDay = new(2026, 8, 3) })).Problems, p => p.Field == "OnDay");

    [Fact]
    public async Task Probe_missed_because_the_child_was_ill_is_decided_by_one_person()
    {
        var probe = NotOwed(1) with { ServiceId = null, GoalId = _team.Gaze.Id, OwnerId = _team.Odalys };

        Assert.Equal("TookPart", Assert.Single((await DecideAsync(probe)).Problems).Field);
        await MissAsync(15, Reason.LearnerInHospital);
        Assert.NotNull((await DecideAsync(probe)).Value);
    }

    [Fact]
    public async Task Decision_taken_back_stays_on_record_with_the_reason()
    {
        await MissAsync(15, Reason.LearnerUnwell);
        var decided = (await DecideAsync(NotOwed(30))).Value!.Decision;
        async Task<Outcome<TakeBackDecision.TakenBack>> TakeBackAsync(int person, string? why) => await _agency.Get<TakeBackDecision>().RunAsync(
            await _team.CallerAsync(person), Guid.CreateVersion7(), new() { Decision = decided, Why = why });

        Assert.Equal([Problem.NotFound], (await TakeBackAsync(_team.Odalys, "x")).Problems);
        Assert.Equal("Why", Assert.Single((await TakeBackAsync(_team.Marisol, " ")).Problems).Field);
        Assert.Equal(new LocalDate(2026, 9, 15), (await TakeBackAsync(_team.Marisol, "Family disagreed")).Value!.OnDay);
        Assert.Equal("Version", Assert.Single((await TakeBackAsync(_team.Marisol, "Family disagreed")).Problems).Field);

        Assert.Equal((false, "Family disagreed"), (Assert.Single(await DecisionsAsync()).Live, Assert.Single(await DecisionsAsync()).TakenBackReason));
    }

    [Fact]
    public async Task Two_at_once_cannot_drop_the_same_minutes_twice()
    {
        await MissAsync(15, Reason.LearnerUnwell);
        var caller = await _team.CallerAsync(_team.Marisol);

        var all = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => Task.Run(() =>
            _agency.Get<Decide>().RunAsync(caller, Guid.CreateVersion7(), NotOwed(30)))));

        Assert.Single(all, o => o.Value is not null);
        Assert.Single(await DecisionsAsync());
    }
}
