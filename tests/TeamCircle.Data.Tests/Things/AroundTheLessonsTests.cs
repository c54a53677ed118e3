using System.Data;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Things;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Names;
using TeamCircle.Data.People;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Road;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Things;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Things;

/// <summary>Things, taps at home, the road, names and coming of age: who reads and writes which of it, and what it leaves alone.</summary>
public sealed class AroundTheLessonsTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Today = new(2026, 10, 2);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"AROUND{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    // ------------------------------------------------------------ things
    private async Task<int> PromiseAsync() => Must(await _agency.Get<PromiseThing>().RunAsync(await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(), new()
    {
        Learner = _team.Wren,
        Kind = ThingKind.Device,
        Name = "Palm switch",
        Owner = _team.Bram,
        PromisedOn = new(2026, 8, 17),
        Goals = [_team.Gaze.Id],
    }, Stop)).Thing;

    private async Task<Outcome<NoteThing.Saved>> NoteAsync(int by, int thing, int version, ThingAct act, LocalDate on) => await _agency.Get<NoteThing>().RunAsync(
        await _team.CallerAsync(by), Guid.CreateVersion7(), new() { Learner = _team.Wren, Thing = thing, Version = version, Act = act, OnDay = on, Words = "the cable", Where = ThingPlace.Home }, Stop);

    private async Task<MyDay> DayAsync(int person) => await _agency.Get<ReadMyDay>().RunAsync(await _team.CallerAsync(person), Scope.Of(await _team.CallerAsync(person)), Stop);

    [Fact]
    public async Task Thing_waits_for_its_owner_and_the_case_manager_until_it_is_there_and_again_while_it_is_broken()
    {
        var thing = await PromiseAsync();
        foreach (var (person, waits) in new[] { (_team.Bram, 1), (_team.Marisol, 1), (_team.Odalys, 0) })
            Assert.Equal(waits, (await DayAsync(person)).Things.Count);

        Assert.NotNull((await NoteAsync(_team.Odalys, thing, 1, ThingAct.InPlace, new(2026, 9, 1))).Value);
        Assert.Empty((await DayAsync(_team.Bram)).Things);

        Assert.NotNull((await NoteAsync(_team.Odalys, thing, 2, ThingAct.Broken, new(2026, 9, 14))).Value);
        Assert.True(Assert.Single((await DayAsync(_team.Bram)).Things).IsOut);
        Assert.Equal(Problem.VersionField, Assert.Single((await NoteAsync(_team.Odalys, thing, 2, ThingAct.Works, Today)).Problems).Field);
        Assert.Equal([Problem.NotFound], (await NoteAsync(_team.Priya, thing, 3, ThingAct.Works, Today)).Problems);
    }

    [Fact]
    public async Task Outage_lies_on_the_goal_that_needs_the_thing_and_changes_none_of_its_numbers()
    {
        var odalys = await _team.CallerAsync(_team.Odalys);
        async Task<GoalCoursePage> CourseAsync() => (await _agency.Get<ReadGoalCourse>().RunAsync(Scope.Of(odalys), odalys, _team.Gaze.Id, Stop))!;
        await _agency.AddAsync(new ProbeRow { Id = Guid.CreateVersion7(), LearnerId = _team.Wren, GoalId = _team.Gaze.Id, ProviderId = _team.Odalys, OnDay = new(2026, 9, 15), Value = 25, Opportunities = 8, RecordedBy = _team.Odalys });
        var before = await CourseAsync();
        var thing = await PromiseAsync();
        await NoteAsync(_team.Bram, thing, 1, ThingAct.InPlace, new(2026, 9, 1));
        await NoteAsync(_team.Bram, thing, 2, ThingAct.Broken, new(2026, 9, 14));
        await NoteAsync(_team.Bram, thing, 3, ThingAct.Works, new(2026, 9, 28));

        var after = await CourseAsync();

        var outage = Assert.Single(after.Outages);
        Assert.Equal((new LocalDate(2026, 9, 14), new LocalDate(2026, 9, 27), false), (outage.From, outage.Until, outage.Goes));
        Assert.Equal(before.Live.Select(p => (p.OnDay, p.Value)), after.Live.Select(p => (p.OnDay, p.Value)));
        Assert.Equal(before.Changes.Count, after.Changes.Count); // no change of condition
    }

    [Fact]
    public async Task Entry_taken_back_opens_what_stood_before_it_and_a_family_reads_no_thing()
    {
        var thing = await PromiseAsync();
        await NoteAsync(_team.Bram, thing, 1, ThingAct.InPlace, new(2026, 9, 1));
        var marisol = await _team.CallerAsync(_team.Marisol);
        var page = (await _agency.Get<ReadThings>().OneAsync(marisol, Scope.Of(marisol), _team.Wren, thing, Stop))!;

        Assert.NotNull((await _agency.Get<TakeBackThingEvent>().RunAsync(
            marisol, Guid.CreateVersion7(), new() { Learner = _team.Wren, Thing = thing, Version = 2, Entry = page.Entries[0].Id, Why = "It was the other switch." }, Stop)).Value);

        page = (await _agency.Get<ReadThings>().OneAsync(marisol, Scope.Of(marisol), _team.Wren, thing, Stop))!;
        Assert.Equal((ThingState.Promised, "It was the other switch."), (page.Thing.Story.State, page.Entries[0].TakenBackReason));
        Assert.Equal(0, await _agency.Portal.ReadAsync(Scope.Of(await _team.CallerAsync(_team.Ines)), db => db.Things.CountAsync(Stop), Stop));
    }

    [Fact]
    public async Task Promise_that_has_ended_gets_another_last_day_or_goes_on()
    {
        var (thing, marisol) = (await PromiseAsync(), await _team.CallerAsync(_team.Marisol));
        async Task<Outcome<EndThing.Saved>> EndAsync(int version, LocalDate? last, string? why, bool takeBack = false) => await _agency.Get<EndThing>().RunAsync(
            marisol, Guid.CreateVersion7(), new() { Learner = _team.Wren, Thing = thing, Version = version, LastDay = last, Why = why, TakeBack = takeBack }, Stop);
        async Task<(LocalDate?, string?)> EndedAsync() => (await _agency.Get<ReadThings>().OneAsync(marisol, Scope.Of(marisol), _team.Wren, thing, Stop))!.Thing is var shown ? (shown.EndedOn, shown.EndedWhy) : default;

        Must(await EndAsync(1, new(2026, 9, 30), "amended"));
        Must(await EndAsync(2, new(2026, 9, 28), "amended on the 28th"));
        Assert.Equal((new LocalDate(2026, 9, 28), "amended on the 28th"), await EndedAsync());

        Must(await EndAsync(3, null, null, takeBack: true));
        Assert.Equal((null, null), await EndedAsync());
        Assert.Single((await DayAsync(_team.Bram)).Things); // it waits for its owner as before
    }

    // ------------------------------------------------------------ practised at home
    private async Task<int> PlannedAtHomeAsync()
    {
        var routine = await _agency.AddAsync(new RoutineRow { LearnerId = _team.Wren, Name = "Warm towel hello" });
        await _agency.AddAsync(new HomePracticeRow { LearnerId = _team.Wren, RoutineId = routine.Id, Weekday = IsoDayOfWeek.Monday });
        return routine.Id;
    }

    private async Task SwitchOnAsync()
    {
        await using (var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, IsolationLevel.ReadCommitted, stop: Stop))
        {
            var row = await work.Db.Agencies.SingleAsync(a => a.Id == _agency.Id, Stop);
            (row.HomeTaps, row.HomeTapsWhy) = (true, "the board wants it");
            await work.Db.SaveChangesAsync(Stop);
            await work.CommitAsync(Stop);
        }
        Assert.NotNull((await _agency.Get<LetTapAtHome>().RunAsync(await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(), new() { Learner = _team.Wren, Person = _team.Ines, Let = true }, Stop)).Value);
    }

    private async Task<Outcome<TapAtHome.Saved>> TapAsync(int by, int routine, HomeAnswer answer) =>
        await _agency.Get<TapAtHome>().RunAsync(await _team.CallerAsync(by), Guid.CreateVersion7(), new() { Learner = _team.Wren, Routine = routine, Answer = answer }, Stop);

    private async Task<HomeTapsPage> TapsAsync(int person) => (await _agency.Get<ReadHomeTaps>().RunAsync(await _team.CallerAsync(person), Scope.Of(await _team.CallerAsync(person)), _team.Wren, Stop))!;

    [Fact]
    public async Task Family_taps_once_a_day_where_it_is_let_and_takes_it_back()
    {
        var routine = await PlannedAtHomeAsync();
        Assert.Equal([Problem.NotFound], (await TapAsync(_team.Ines, routine, HomeAnswer.Done)).Problems);
        Assert.False((await TapsAsync(_team.Ines)).IsOn);
        await SwitchOnAsync();
        var aunt = await _team.PersonAsync("Lidia Belmares", Role.Family, Relation.Family, _team.Wren);

        Assert.NotNull((await TapAsync(_team.Ines, routine, HomeAnswer.Done)).Value);
        var tap = (await TapAsync(_team.Ines, routine, HomeAnswer.NotUpToIt)).Value!.Tap;

        Assert.Equal([(tap, HomeAnswer.NotUpToIt)], (await TapsAsync(_team.Ines)).Taps.Select(t => (t.Id, t.Answer)));
        Assert.Equal([Problem.NotFound], (await TapAsync(aunt, routine, HomeAnswer.Done)).Problems);
        Assert.Equal(0, await _agency.Portal.ReadAsync(Scope.Of(await _team.CallerAsync(aunt)), db => db.HomeLogs.CountAsync(Stop), Stop));
        Assert.NotNull((await _agency.Get<UndoHomeTap>().RunAsync(await _team.CallerAsync(_team.Ines), Guid.CreateVersion7(), new() { Learner = _team.Wren, Tap = tap }, Stop)).Value);
        Assert.Empty((await TapsAsync(_team.Ines)).Taps);
    }

    [Fact]
    public async Task Taps_reach_the_teams_list_and_neither_minutes_nor_a_goal()
    {
        var routine = await PlannedAtHomeAsync();
        await SwitchOnAsync();
        var marisol = await _team.CallerAsync(_team.Marisol);
        var standing = new Func<Task<(string, int)>>(async () => (
            string.Join('\n', (await _agency.Get<ReadStandingLines>().RunAsync(Scope.Of(marisol), Today, _team.Wren, Stop)).Lines.Select(l => l.Balance.Minutes)),
            await _agency.Portal.ReadAsync(Scope.Of(marisol), async db => await db.Probes.CountAsync(Stop) + await db.Trials.CountAsync(Stop) + await db.Sessions.CountAsync(Stop), Stop)));
        var before = await standing();

        foreach (var answer in Enum.GetValues<HomeAnswer>())
            Assert.NotNull((await TapAsync(_team.Ines, routine, answer)).Value);

        Assert.Equal(before, await standing());
        var log = Assert.Single((await _agency.Get<ReadHomeLogs>().RunAsync(marisol, Scope.Of(marisol), _team.Wren, Stop))!.Logs);
        Assert.Equal((Today, HomeAnswer.Skipped, true), (log.OnDay, log.Answer, log.ByFamily));
    }

    [Fact]
    public async Task After_quiet_nothing_is_tapped_also_past_the_portal()
    {
        var routine = await PlannedAtHomeAsync();
        await SwitchOnAsync();
        Assert.NotNull((await _agency.Get<SetQuiet>().RunAsync(await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(),
            new() { Learner = _team.Wren, Reason = "She died on Tuesday.", NamedBy = "Ines Belmares", Confirmed = true }, Stop)).Value);

        Assert.False((await TapsAsync(_team.Ines)).IsOn);
        await using var work = await _agency.Portal.OpenAsync(Scope.Of(await _team.CallerAsync(_team.Ines)), IsolationLevel.ReadCommitted, stop: Stop);
        work.Db.Add(new HomeLogRow { AgencyId = _agency.Id, LearnerId = _team.Wren, RoutineId = routine, OnDay = Today, Who = "Ines", RecordedBy = _team.Ines, ByFamily = true });
        var refused = await Assert.ThrowsAsync<DbUpdateException>(() => work.Db.SaveChangesAsync(Stop));
        Assert.Equal(PostgresErrorCodes.InsufficientPrivilege, ((PostgresException)refused.InnerException!).SqlState);
    }

    // ------------------------------------------------------------ the road
    [Fact]
    public async Task Month_on_the_road_adds_the_ways_between_the_visits_that_were_held()
    {
        var places = new Dictionary<string, int>();
        foreach (var code in new[] { "BASE", "WRENS", "JONAHS" })
            places[code] = (await _agency.AddAsync(new PlaceRow { Code = code, Name = code, Kind = Place.Home })).Id;
        foreach (var (from, to, minutes, tenths) in new[] { ("BASE", "WRENS", 15, 84), ("WRENS", "JONAHS", 20, 117) })
            await _agency.AddAsync(new TravelTimeRow { FromPlaceId = places[from], ToPlaceId = places[to], Minutes = minutes, Tenths = tenths });
        foreach (var (learner, code) in new[] { (_team.Wren, "WRENS"), (_team.Jonah, "JONAHS") })
            await _agency.AddAsync(new LearnerPlaceRow { LearnerId = learner, Kind = Place.Home, PlaceId = places[code] });
        await _agency.AddAsync(new PlaceAddressRow { PlaceId = places["WRENS"], Address = "the green gate" });
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
        await HeldAsync(_team.Vision, new(9, 0), VisitOutcome.Given);
        await HeldAsync(jonahs, new(11, 0), VisitOutcome.Offered); // came, waited, not taken up: driven all the same
        await HeldAsync(_team.Vision, new(14, 0), VisitOutcome.NotOffered);
        var odalys = await _team.CallerAsync(_team.Odalys);
        Assert.NotNull((await _agency.Get<SetRoadStart>().RunAsync(odalys, Guid.CreateVersion7(), new() { Place = places["BASE"] }, Stop)).Value);

        var month = (await _agency.Get<ReadRoad>().MonthAsync(Scope.Of(odalys), _team.Odalys, new(2026, 9), Stop))!;

        var day = Assert.Single(month.Days);
        Assert.Equal((35, 201, 1), (day.Minutes, day.Tenths, day.Unknown.Count())); // 15 + 20 and 8.4 + 11.7; from Jonah's to the base is not known
        Assert.Equal(["WREN", "JONAH"], day.Stops.Select(s => s.Learner));
        Assert.Null(await _agency.Get<ReadRoad>().MonthAsync(Scope.Of(await _team.CallerAsync(_team.Bram)), _team.Odalys, new(2026, 9), Stop));
        Assert.Equal(35, (await _agency.Get<ReadRoad>().MonthAsync(_agency.WholeAgency, _team.Odalys, new(2026, 9), Stop))!.Minutes);
        Assert.Equal(0, await _agency.Portal.ReadAsync(Scope.Of(await _team.CallerAsync(_team.Ines)), db => db.PlaceAddresses.CountAsync(Stop), Stop));
    }

    private async Task HeldAsync(ServiceRow service, LocalTime start, VisitOutcome outcome)
    {
        var visit = await _team.VisitAsync(service, start: start, with: v => v.State = VisitState.Logged);
        await _agency.AddAsync(new SessionRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = visit.LearnerId,
            ServiceId = service.Id,
            VisitId = visit.Id,
            ProviderId = visit.ProviderId,
            OnDay = visit.OnDay,
            Outcome = outcome,
            StartTime = start,
            EndTime = start.PlusMinutes(45),
            Reason = outcome == VisitOutcome.Given ? null : Reason.NobodyHome,
        });
    }

    // ------------------------------------------------------------ names
    [Fact]
    public async Task Former_name_stays_on_what_was_sealed_before_and_finds_the_learner_for_the_case_manager_alone()
    {
        var (marisol, odalys) = (await _team.CallerAsync(_team.Marisol), await _team.CallerAsync(_team.Odalys));
        var before = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Learners.SingleAsync(l => l.Id == _team.Wren, Stop), Stop);
        Assert.Equal(["FromDay", "Paper"], (await RenameAsync(marisol, new() { Learner = _team.Wren, Version = before.Version, Name = "Wren Quillon" })).Problems.Select(p => p.Field));

        Assert.NotNull((await RenameAsync(marisol, new()
        {
            Learner = _team.Wren,
            Version = before.Version,
            Name = "Renata Quillon",
            Called = "Wren Quillon",
            FromDay = new(2026, 9, 15),
            Paper = "Court order of 14 September",
        })).Value);

        Task<string> OnAsync(LocalDate day) => _agency.Portal.ReadAsync(Scope.Of(odalys), db => db.Database.SqlQuery<string>($"select portal.learner_name_on({_team.Wren}, {day}) as \"Value\"").SingleAsync(Stop), Stop);
        Assert.Equal("Wren Belmares", await OnAsync(new(2026, 9, 14)));
        Assert.Equal("Renata Quillon", await OnAsync(new(2026, 9, 15)));
        Assert.Equal("Wren Quillon", await _agency.Get<ReadLearner>().NameAsync(Scope.Of(odalys), _team.Wren, Stop));
        Assert.Contains(_team.Wren, await _agency.Get<ReadCaseload>().FindAsync(marisol, Scope.Of(marisol), "belm", Stop));
        Assert.DoesNotContain(_team.Wren, await _agency.Get<ReadCaseload>().FindAsync(odalys, Scope.Of(odalys), "belm", Stop));
        Assert.Contains(_team.Wren, await _agency.Get<ReadCaseload>().FindAsync(odalys, Scope.Of(odalys), "QUILL", Stop));
        Assert.Equal([Problem.NotFound], (await RenameAsync(odalys, new() { Learner = _team.Wren, Version = 2, Name = "X" })).Problems);
    }

    private async Task<Outcome<RenameLearner.Saved>> RenameAsync(Caller caller, RenameLearner.Input input) => await _agency.Get<RenameLearner>().RunAsync(caller, Guid.CreateVersion7(), input, Stop);

    // ------------------------------------------------------------ coming of age
    [Fact]
    public async Task Family_seat_pauses_on_the_day_without_a_job_until_the_case_manager_has_decided()
    {
        var marisol = await _team.CallerAsync(_team.Marisol);
        Assert.True((await _team.CallerAsync(_team.Ines)).IsFamilyOf(_team.Wren));
        Assert.NotNull((await _agency.Get<EnterBirth>().RunAsync(marisol, Guid.CreateVersion7(), new() { Learner = _team.Wren, BornOn = Today.PlusYears(-18).PlusDays(1) }, Stop)).Value);
        Assert.True((await _team.CallerAsync(_team.Ines)).IsFamilyOf(_team.Wren)); // a day before
        Assert.False(Assert.Single((await DayAsync(_team.Marisol)).OfAge).IsToDecide);

        _agency.Clock.Advance(TimeSpan.FromDays(1));

        Assert.Equal((false, true), ((await _team.CallerAsync(_team.Ines)).IsFamilyOf(_team.Wren), (await _team.CallerAsync(_team.Ines)).HasPausedSeat));
        Assert.True(Assert.Single((await DayAsync(_team.Marisol)).OfAge).IsToDecide);
        marisol = await _team.CallerAsync(_team.Marisol);
        var seat = Assert.Single((await _agency.Get<ReadComingOfAge>().RunAsync(marisol, Scope.Of(marisol), _team.Wren, Stop))!.Seats);
        Assert.NotNull((await _agency.Get<DecideSeat>().RunAsync(
            marisol, Guid.CreateVersion7(), new() { Learner = _team.Wren, Seat = seat.Id, Version = seat.Version, Basis = AdultBasis.Guardianship, Paper = "Court order on file" }, Stop)).Value);
        Assert.Equal((true, false), ((await _team.CallerAsync(_team.Ines)).IsFamilyOf(_team.Wren), (await _team.CallerAsync(_team.Ines)).HasPausedSeat));
        foreach (var other in new[] { _team.Odalys, _team.Ines })
            Assert.Equal(0, await _agency.Portal.ReadAsync(Scope.Of(await _team.CallerAsync(other)), db => db.Births.CountAsync(Stop), Stop));
    }

    private static T Must<T>(Outcome<T> outcome) where T : class
    {
        Assert.True(outcome.Value is not null, string.Join(" ", outcome.Problems.Select(p => p.Message)));
        return outcome.Value;
    }
}
