using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.People;

/// <summary>Substitutes, assistants and who has read the plan: one agency for each test.</summary>
public sealed class PeopleAroundTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"PEOPLE{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private LocalDate Today => LocalDate.FromDateTime(_agency.Clock.GetUtcNow().Date);

    private Task<T> ReadAsync<T>(Func<PortalDb, Task<T>> read) => _agency.Portal.ReadAsync(_agency.WholeAgency, read);

    private Task<SessionRow> SessionAsync(Guid id) => ReadAsync(db => db.Sessions.SingleAsync(s => s.Id == id));

    private async Task<Outcome<SendSubstitute.Saved>> SendAsync(int by, VisitRow visit, int? person, LocalDate? last = null, bool confirmed = false) =>
        await _agency.Get<SendSubstitute>().RunAsync(await _team.CallerAsync(by), Guid.CreateVersion7(), new() { Visit = visit.Id, Version = visit.Version, Person = person, LastDay = last, Confirmed = confirmed });

    private async Task<Outcome<Saved>> LogAsync(int by, VisitRow visit, VisitOutcome outcome = VisitOutcome.Given) => await _agency.Get<LogSession>()
        .RunAsync(await _team.CallerAsync(by), Guid.CreateVersion7(), new() { Visits = [visit.Id], Outcome = outcome, Reason = outcome == VisitOutcome.Given ? null : Reason.LearnerUnwell });

    private Task<RelationRow> StandAsync(int person, Relation kind, LocalDate from, LocalDate? to, int? supervisor = null) => _agency.AddAsync(
        new RelationRow { LearnerId = _team.Wren, PersonId = person, Kind = kind, FromDay = from, ToDay = to, SupervisorId = supervisor });

    /// <summary>What the vision service was given in its period, as the ledger has it.</summary>
    private async Task<LedgerLine> LedgerAsync() =>
        (await _agency.Get<ReadLedger>().ServiceAsync(_agency.Person(_team.Marisol, _team.Wren), _team.Vision.Id, null, Today))!.Lines[0];

    private async Task<VisitRow> AssistantsVisitAsync(int assistant, bool counts)
    {
        await StandAsync(assistant, Relation.Assistant, new(2026, 8, 17), null, _team.Odalys);
        await _agency.ChangeAsync<ServiceVersionRow>(v => v.ServiceId == _team.Vision.Id, v => v.AssistantsCount = counts);
        return await _team.VisitAsync(provider: assistant, day: Today.PlusDays(-2));
    }

    [Fact]
    public async Task Somebody_else_comes_for_the_days_of_the_visits_and_reaches_the_learner_on_no_other()
    {
        VisitRow first = await _team.VisitAsync(day: Today.PlusDays(3)), later = await _team.VisitAsync(day: Today.PlusDays(5)), after = await _team.VisitAsync(day: Today.PlusDays(10));
        var others = await _team.VisitAsync(provider: _team.Bram, day: Today.PlusDays(4));

        var saved = await SendAsync(_team.Odalys, first, _team.Priya, Today.PlusDays(6));

        Assert.Equal([Today.PlusDays(3), Today.PlusDays(5)], saved.Value!.Days);
        Guid[] ids = [first.Id, later.Id, after.Id, others.Id];
        var givers = await ReadAsync(db => db.Visits.Where(v => ids.Contains(v.Id)).ToDictionaryAsync(v => v.Id, v => v.ProviderId));
        Assert.Equal([_team.Priya, _team.Priya, _team.Odalys, _team.Bram], ids.Select(id => givers[id]));
        Assert.Empty((await _team.CallerAsync(_team.Priya)).Learners);
        foreach (var (days, reaches) in new[] { (3, true), (1, false), (1, true), (1, false) })
        {
            _agency.Clock.Advance(TimeSpan.FromDays(days));
            Assert.Equal(reaches, (await _team.CallerAsync(_team.Priya)).StandsIn(_team.Wren));
        }

    }

    [Fact]
    public async Task Only_whoever_plans_the_visit_sends_somebody_and_only_somebody_new()
    {
        var visit = await _team.VisitAsync(day: Today.PlusDays(3));

        Assert.Equal([Problem.NotFound], (await SendAsync(_team.Bram, visit, _team.Priya)).Problems);
        Assert.Equal(["Person"], (await SendAsync(_team.Marisol, visit, _team.Bram)).Problems.Select(p => p.Field));
        Assert.Equal(["Person"], (await SendAsync(_team.Odalys, visit, _team.Ines)).Problems.Select(p => p.Field));
        Assert.NotNull((await SendAsync(_team.Marisol, visit, _team.Priya)).Value);
        Assert.Equal([Problem.NotFound], (await SendAsync(_team.Priya, visit, _team.Odalys)).Problems);
    }

    [Theory]
    [InlineData(true, 45, null)]
    [InlineData(false, 0, Withheld.NotQualified)]
    public async Task Minutes_of_a_substitute_count_with_the_qualification_and_never_silently_without_it(bool qualified, int counts, Withheld? withheld)
    {
        if (qualified)
            await _agency.AddAsync(new PersonDisciplineRow { PersonId = _team.Priya, Discipline = Discipline.Vision });
        await StandAsync(_team.Priya, Relation.Substitute, Today.PlusDays(-1), Today);
        var visit = await _team.VisitAsync(provider: _team.Priya, day: Today.PlusDays(-1));

        var saved = (await LogAsync(_team.Priya, visit)).Value!;

        Assert.Equal(counts, saved.Credited);
        Assert.Equal(!qualified, saved.Notices.Any(n => n.Contains("counts 0 minutes", StringComparison.Ordinal)));
        Assert.Equal((counts, withheld), (await SessionAsync(saved.Sessions[0])) is var row ? (row.Credited, row.Withheld) : default);
        var line = await LedgerAsync();
        Assert.Equal((counts, withheld), (line.Working.GivenEntries.Single().Entry.Amount, line.Given.Single().Withheld));

        // What is learned of somebody later does not change what was entered.
        if (!qualified)
            await _agency.AddAsync(new PersonDisciplineRow { PersonId = _team.Priya, Discipline = Discipline.Vision });
        Assert.Equal(counts, (await LedgerAsync()).Working.GivenEntries.Single().Entry.Amount);
    }

    [Fact]
    public async Task Substitute_says_once_a_day_that_they_read_first()
    {
        await StandAsync(_team.Priya, Relation.Substitute, Today, Today);
        var (priya, odalys) = (await _team.CallerAsync(_team.Priya), await _team.CallerAsync(_team.Odalys));
        async Task<bool> MustAsync() => (await _agency.Get<ReadFirst>().RunAsync(priya, Scope.Of(priya), _team.Wren))!.MustSay;

        Assert.True(await MustAsync());
        for (var i = 0; i < 2; i++)
            Assert.NotNull((await _agency.Get<MarkReadFirst>().RunAsync(priya, Guid.CreateVersion7(), new(_team.Wren))).Value);
        Assert.False(await MustAsync());
        Assert.Equal(1, await ReadAsync(db => db.ReadFirsts.CountAsync()));
        Assert.Equal([Problem.NotFound], (await _agency.Get<MarkReadFirst>().RunAsync(odalys, Guid.CreateVersion7(), new(_team.Wren))).Problems);
    }

    [Fact]
    public async Task Assistants_minutes_count_once_the_supervisor_has_countersigned()
    {
        var joss = await _team.PersonAsync("Joss Ahlgren", Role.Provider, Relation.Team);
        var visit = await AssistantsVisitAsync(joss, counts: true);
        var session = (await LogAsync(joss, visit)).Value!.Sessions[0];
        var (odalys, bram, own) = (await _team.CallerAsync(_team.Odalys), await _team.CallerAsync(_team.Bram), await _team.CallerAsync(joss));
        Task<Outcome<Countersign.Saved>> SignAsync(Caller caller) => _agency.Get<Countersign>().RunAsync(caller, Guid.CreateVersion7(), new(session));

        Assert.Equal(Withheld.NotCountersigned, (await LedgerAsync()).Given.Single().Withheld);
        Assert.Equal(session, Assert.Single(await _agency.Get<ReadCountersign>().RunAsync(odalys, Scope.Of(odalys))).Session);
        Assert.Empty(await _agency.Get<ReadCountersign>().RunAsync(bram, Scope.Of(bram)));
        var marisol = await _team.CallerAsync(_team.Marisol);
        Task<CountPage?> CountAsync() => _agency.Get<ReadCount>().RunAsync(marisol, Scope.Of(marisol), _team.Wren, _team.Period.Id);
        Assert.Equal(visit.Id, Assert.Single((await CountAsync())!.Obstacles, o => o.Obstacle.Kind == ObstacleKind.NotCountersigned).Visits.Single().Id);
        foreach (var other in new[] { own, bram, marisol })
            Assert.Equal([Problem.NotFound], (await SignAsync(other)).Problems);
        Assert.Equal(45, (await SignAsync(odalys)).Value!.Credited);

        Assert.Equal((45, null), (await LedgerAsync()) is var line ? (line.Working.GivenEntries.Single().Entry.Amount, line.Given.Single().Withheld) : default);
        Assert.Equal(Problem.VersionField, Assert.Single((await SignAsync(odalys)).Problems).Field);
        Assert.Empty(await _agency.Get<ReadCountersign>().RunAsync(odalys, Scope.Of(odalys)));
        Assert.DoesNotContain((await CountAsync())!.Obstacles, o => o.Obstacle.Kind == ObstacleKind.NotCountersigned);
    }

    [Fact]
    public async Task Where_the_service_counts_no_assistant_the_signature_changes_no_figure()
    {
        var joss = await _team.PersonAsync("Joss Ahlgren", Role.Provider, Relation.Team);
        var session = (await LogAsync(joss, await AssistantsVisitAsync(joss, counts: false))).Value!.Sessions[0];

        var signed = await _agency.Get<Countersign>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new(session));

        Assert.Equal(0, signed.Value!.Credited);
        Assert.Equal(Withheld.AssistantsNotCounted, (await SessionAsync(session)).Withheld);
    }

    [Fact]
    public async Task Case_manager_countersigns_once_the_supervisor_has_left()
    {
        var joss = await _team.PersonAsync("Joss Ahlgren", Role.Provider, Relation.Team);
        var session = (await LogAsync(joss, await AssistantsVisitAsync(joss, counts: true))).Value!.Sessions[0];
        await _agency.ChangeAsync<RelationRow>(r => r.PersonId == _team.Odalys && r.LearnerId == _team.Wren, r => r.ToDay = Today.PlusDays(-1));
        var marisol = await _team.CallerAsync(_team.Marisol);

        Assert.True(Assert.Single(await _agency.Get<ReadCountersign>().RunAsync(marisol, Scope.Of(marisol))).HasLeft);
        Assert.NotNull((await _agency.Get<Countersign>().RunAsync(marisol, Guid.CreateVersion7(), new(session))).Value);

        Assert.Equal((_team.Marisol, _team.Odalys), (await SessionAsync(session)) is var row ? (row.CountersignedBy, row.SupervisorId) : default);
    }

    [Fact]
    public async Task Entry_that_is_sent_back_waits_again_once_it_is_corrected()
    {
        var joss = await _team.PersonAsync("Joss Ahlgren", Role.Provider, Relation.Team);
        var visit = await AssistantsVisitAsync(joss, counts: true);
        var session = (await LogAsync(joss, visit)).Value!.Sessions[0];
        var (odalys, own) = (await _team.CallerAsync(_team.Odalys), await _team.CallerAsync(joss));
        Task<Outcome<SendBack.Saved>> BackAsync(string? why) => _agency.Get<SendBack>().RunAsync(odalys, Guid.CreateVersion7(), new() { Session = session, Why = why });

        Assert.Equal(["Why"], (await BackAsync(" ")).Problems.Select(p => p.Field));
        Assert.NotNull((await BackAsync("It ended at 9:30, says Ines")).Value);
        Assert.Empty(await _agency.Get<ReadCountersign>().RunAsync(odalys, Scope.Of(odalys)));
        Assert.Equal("It ended at 9:30, says Ines", Assert.Single((await _agency.Get<ReadMyDay>().RunAsync(own, Scope.Of(own))).SentBack).SentBack);
        var corrected = await _agency.Get<CorrectSession>().RunAsync(own, Guid.CreateVersion7(), new() { Session = session, Start = "9:00", End = "9:30", Reason = Reason.LearnerUnwell, Why = "As sent back" });

        var waits = Assert.Single(await _agency.Get<ReadCountersign>().RunAsync(odalys, Scope.Of(odalys)));
        Assert.Equal((corrected.Value!.Sessions[0], null), (waits.Session, waits.SentBack));
        Assert.Equal(30, (await _agency.Get<Countersign>().RunAsync(odalys, Guid.CreateVersion7(), new(waits.Session))).Value!.Credited);
    }

    [Fact]
    public async Task Supervision_visits_are_due_by_their_own_calendar_and_noted_by_whoever_made_them()
    {
        var joss = await _team.PersonAsync("Joss Ahlgren", Role.Provider, Relation.Team);
        await StandAsync(joss, Relation.Assistant, new(2026, 8, 17), null, _team.Odalys);
        var (marisol, odalys, own) = (await _team.CallerAsync(_team.Marisol), await _team.CallerAsync(_team.Odalys), await _team.CallerAsync(joss));
        SetSupervision.Input every = new() { Learner = _team.Wren, Assistant = joss, EveryUnit = EveryUnit.Week, EveryCount = 2, FromDay = Today.PlusDays(-20) };
        NoteObservation.Input seen = new() { Learner = _team.Wren, Assistant = joss, OnDay = Today, Minutes = 30 };
        async Task<IReadOnlyList<SupervisionWaits>> WaitsAsync() => (await _agency.Get<ReadMyDay>().RunAsync(odalys, Scope.Of(odalys))).Supervision;

        Assert.Equal([Problem.NotFound], (await _agency.Get<SetSupervision>().RunAsync(odalys, Guid.CreateVersion7(), every)).Problems);
        Assert.NotNull((await _agency.Get<SetSupervision>().RunAsync(marisol, Guid.CreateVersion7(), every)).Value);
        Assert.Equal((Today.PlusDays(7), true), Assert.Single(await WaitsAsync()) is var due ? (due.DueBy, due.IsOverdue) : default);
        Assert.Equal([Problem.NotFound], (await _agency.Get<NoteObservation>().RunAsync(own, Guid.CreateVersion7(), seen)).Problems);
        Assert.NotNull((await _agency.Get<NoteObservation>().RunAsync(odalys, Guid.CreateVersion7(), seen)).Value);
        Assert.Empty(await WaitsAsync());

        var page = (await _agency.Get<ReadSupervision>().RunAsync(marisol, Scope.Of(marisol), _team.Wren))!;
        Assert.Equal((_team.Odalys, 30, true), Assert.Single(page.Visits) is var visit ? (visit.ObserverId, visit.Minutes, visit.Direct) : default);
        Assert.Single(page.Assistants.Single().Standing!.Missed);
        TakeBackObservation.Input back = new() { Learner = _team.Wren, Observation = page.Visits[0].Id, Reason = "It was another child" };
        Assert.Equal([Problem.NotFound], (await _agency.Get<TakeBackObservation>().RunAsync(await _team.CallerAsync(_team.Bram), Guid.CreateVersion7(), back)).Problems);
        Assert.NotNull((await _agency.Get<TakeBackObservation>().RunAsync(marisol, Guid.CreateVersion7(), back)).Value);
        Assert.Single(await WaitsAsync());
    }

    [Fact]
    public async Task Plan_is_read_as_it_stands_and_an_amendment_asks_again()
    {
        var (odalys, marisol) = (await _team.CallerAsync(_team.Odalys), await _team.CallerAsync(_team.Marisol));
        async Task<PersonReading> OwnAsync() => (await PageAsync()).People.Single(p => p.PersonId == _team.Odalys);
        async Task<AcknowledgedPage> PageAsync() => (await _agency.Get<ReadAcknowledged>().RunAsync(marisol, Scope.Of(marisol), _team.Wren))!;
        async Task<Outcome<Acknowledge.Saved>> SayAsync(int state) => await _agency.Get<Acknowledge>().RunAsync(odalys, Guid.CreateVersion7(), new() { Learner = _team.Wren, State = state });
        async Task<bool> WaitsAsync() => (await _agency.Get<ReadMyDay>().RunAsync(odalys, Scope.Of(odalys))).PlansToRead.Any(p => p.LearnerId == _team.Wren);
        var before = (await PageAsync()).Plan!.Number;

        Assert.Equal(PlanKnown.Never, (await OwnAsync()).Known);
        Assert.NotNull((await SayAsync(before)).Value);
        Assert.Equal((PlanKnown.AsItStands, Today), (await OwnAsync()) is var own ? (own.Known, own.On) : default);
        Assert.False(await WaitsAsync());

        var amended = await _agency.Get<AmendService>().RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = _team.Wren,
            Service = _team.Vision.Id,
            Version = _team.Vision.Version,
            FromDay = Today.PlusDays(14),
            Amount = new() { Quantity = 90, EveryUnit = EveryUnit.Week, PlanWords = "90 minutes a week", Reason = "The team met" },
        });
        Assert.NotNull(amended.Value);

        Assert.Equal(PlanKnown.Earlier, (await OwnAsync()).Known);
        Assert.True(await WaitsAsync());
        Assert.Equal(Problem.VersionField, Assert.Single((await SayAsync(before)).Problems).Field);
        Assert.NotNull((await SayAsync((await PageAsync()).Plan!.Number)).Value);
        Assert.False(await WaitsAsync());
        Assert.DoesNotContain((await PageAsync()).People, p => p.PersonId == _team.Ines);
    }
}
