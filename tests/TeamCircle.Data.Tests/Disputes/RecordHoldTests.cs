using System.Data;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Disputes;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Tests.Calendar;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Disputes;

/// <summary>Holds on records as the database keeps them, and the facts of a disputed visit in order.</summary>
public sealed class RecordHoldTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    private static readonly LocalDate Tuesday = new(2026, 9, 15), Wednesday = new(2026, 9, 16);

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"DISPUTE{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Guid> LogAsync(VisitRow visit) => Assert.Single((await LoggingAsync(visit)).Value!.Sessions);

    private async Task<Outcome<Saved>> LoggingAsync(VisitRow visit) =>
        await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(visit.ProviderId), Guid.CreateVersion7(), new() { Visits = [visit.Id] });

    private async Task<Outcome<Saved>> CorrectAsync(Guid session, string end, string why) => await _agency.Get<CorrectSession>().RunAsync(
        await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Session = session, Start = "9:00", End = end, Why = why });

    private async Task<Outcome<HoldRecords.Saved>> HoldAsync(int person, LocalDate? from, LocalDate? to, string? why = "A complaint about these weeks") => await _agency.Get<HoldRecords>()
        .RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), new() { Learner = _team.Wren, FromDay = from, ToDay = to, Reason = why });

    private async Task<Outcome<EndRecordHold.Saved>> EndAsync(int person, int hold, string? word = "The complaint is settled") => await _agency.Get<EndRecordHold>()
        .RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), new() { Learner = _team.Wren, Hold = hold, Version = 1, Word = word });

    /// <summary>What a statement answers, sent as the application's role for everybody on the team: null where it passes.</summary>
    private async Task<string?> TryAsync(string sql, Guid id)
    {
        await using var work = await _agency.Portal.OpenAsync(_agency.Person(_team.Odalys, _team.Wren), IsolationLevel.ReadCommitted);
        try
        {
            Assert.Equal(1, await work.Db.Database.ExecuteSqlRawAsync(sql, id));
            return null;
        }
        catch (PostgresException refused)
        {
            return refused.SqlState;
        }
    }

    [Fact]
    public async Task Held_records_are_refused_by_the_database_and_what_nobody_entered_is_not()
    {
        var (logged, planned) = (await _team.VisitAsync(), await _team.VisitAsync(day: Wednesday));
        var session = await LogAsync(logged);
        var probe = await _agency.AddAsync(new ProbeRow { Id = Guid.CreateVersion7(), LearnerId = _team.Wren, GoalId = _team.Gaze.Id, ProviderId = _team.Odalys, OnDay = Tuesday, Value = 50, Opportunities = 8 });
        await _agency.AddAsync(new DecisionRow { LearnerId = _team.Wren, ServiceId = _team.Vision.Id, OnDay = Tuesday, Amount = 15, Kind = DecisionKind.MakeUp, DecidedOn = Wednesday, DecidedBy = [_team.Marisol] });
        (string Sql, Guid Id)[] changes =
        [
            ("update portal.sessions set live = false where id = {0}", session),
            ("update portal.sessions set credited = 1 where id = {0}", session),
            ("update portal.visits set minutes = 30 where id = {0}", logged.Id),
            ("update portal.visits set live = false where id = {0}", planned.Id),
            ("update portal.visits set on_day = on_day + 30 where id = {0}", planned.Id),
            ("update portal.visits set state = 'CalledOff' where id = {0}", planned.Id),
            ("update portal.probes set value = 60 where id = {0}", probe.Id),
            ("update portal.decisions set live = false where learner_id = (select learner_id from portal.probes where id = {0})", probe.Id),
        ];
        foreach (var (sql, id) in changes)
            Assert.Equal((sql, null), (sql, await TryAsync(sql, id))); // each passes while nothing is held

        var hold = (await HoldAsync(_team.Marisol, Tuesday, Wednesday)).Value!.Hold;
        foreach (var (sql, id) in changes)
            Assert.Equal((sql, "TC011"), (sql, await TryAsync(sql, id)));
        Assert.Null(await TryAsync("update portal.visits set expected_start = '09:10' where id = {0}", planned.Id));
        var refused = await CorrectAsync(session, "9:30", "Read the wrong line");
        Assert.Contains("under a hold", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);

        Assert.NotEmpty((await LoggingAsync(planned)).Value!.Sessions);
        Assert.NotNull((await EndAsync(_team.Marisol, hold)).Value);
        Assert.NotNull((await CorrectAsync(session, "9:30", "Read the wrong line")).Value);
    }

    [Fact]
    public async Task Days_around_a_hold_and_other_learners_go_on_as_always()
    {
        var (before, jonahs) = (await _team.VisitAsync(day: Tuesday.PlusDays(-1)), await _agency.AddAsync(new ProbeRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = _team.Jonah,
            GoalId = (await _team.GoalAsync(_team.Jonah, _team.Odalys)).Id,
            ProviderId = _team.Odalys,
            OnDay = Tuesday,
            Value = 1,
        }));
        var session = await LogAsync(before);
        await HoldAsync(_team.Marisol, Tuesday, Tuesday);

        Assert.NotNull((await CorrectAsync(session, "9:30", "Read the wrong line")).Value);
        await _agency.ChangeAsync<ProbeRow>(p => p.Id == jonahs.Id, p => p.Value = 2);
    }

    [Fact]
    public async Task Entry_that_was_taken_back_before_is_no_first_entry()
    {
        var visit = await _team.VisitAsync();
        var session = await LogAsync(visit);
        await _agency.Get<TakeBackSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Session = session, Why = "Wrong child" });
        await HoldAsync(_team.Marisol, Tuesday, Tuesday);

        Assert.Contains("under a hold", Assert.Single((await LoggingAsync(visit)).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_sets_and_ends_a_hold_and_what_they_must_say()
    {
        var vesna = await _team.PersonAsync("Vesna Orrick", Role.Director, Relation.Team);
        Assert.Equal([Problem.NotFound], (await HoldAsync(_team.Odalys, Tuesday, Wednesday)).Problems);
        Assert.Equal(["ToDay", "Reason"], (await HoldAsync(_team.Marisol, Wednesday, Tuesday, " ")).Problems.Select(p => p.Field));
        Assert.Equal(["FromDay", "ToDay"], (await HoldAsync(_team.Marisol, null, null)).Problems.Select(p => p.Field));
        Assert.Equal("ToDay", Assert.Single((await HoldAsync(_team.Marisol, Tuesday, new(2026, 10, 3))).Problems).Field); // today is 2 October

        var hold = (await HoldAsync(vesna, Tuesday, Wednesday)).Value!.Hold;
        Assert.Equal([Problem.NotFound], (await EndAsync(_team.Marisol, hold)).Problems); // she did not set it
        Assert.Equal("Word", Assert.Single((await EndAsync(vesna, hold, null)).Problems).Field);
        Assert.NotNull((await EndAsync(vesna, hold)).Value);
        Assert.Contains("meanwhile", Assert.Single((await EndAsync(vesna, hold)).Problems).Message, StringComparison.Ordinal);
    }

    /// <summary>A correction that is under way is saved before the hold; one that comes after it meets it.</summary>
    [Fact]
    public async Task Hold_waits_for_what_is_being_saved_and_what_comes_then_meets_it()
    {
        var session = await LogAsync(await _team.VisitAsync());
        await using var saving = await _agency.Portal.OpenAsync(_agency.WholeAgency, IsolationLevel.ReadCommitted);
        await saving.Db.Database.ExecuteSqlAsync($"update portal.sessions set not_counted = 1 where id = {session}");

        var holding = HoldAsync(_team.Marisol, Tuesday, Tuesday);
        await WaitingAsync();
        Assert.False(holding.IsCompleted);
        await saving.CommitAsync();

        Assert.NotNull((await holding).Value);
        Assert.Equal("TC011", await TryAsync("update portal.sessions set not_counted = 2 where id = {0}", session));
    }

    /// <summary>Until somebody waits for the lock of a hold.</summary>
    private async Task WaitingAsync()
    {
        await using var bare = new NpgsqlConnection(database.ConnectionString());
        await bare.OpenAsync();
        await using var ask = new NpgsqlCommand("select exists (select from pg_locks where locktype = 'advisory' and not granted and classid = 7202613)", bare);
        while (!(bool)(await ask.ExecuteScalarAsync(TestContext.Current.CancellationToken))!)
            await Task.Yield();
    }

    [Fact]
    public async Task Facts_of_a_visit_moved_twice_logged_late_and_corrected_twice_come_in_order()
    {
        var visit = await _team.VisitAsync();
        await _agency.ChangeAsync<VisitRow>(v => v.Id == visit.Id, v => v.TakePlace(Wednesday, new(9, 0), 45));
        await _agency.ChangeAsync<VisitRow>(v => v.Id == visit.Id, v => v.TakePlace(Wednesday.PlusDays(1), new(9, 0), 45));
        var first = await LogAsync(visit);
        var second = Assert.Single((await CorrectAsync(first, "9:30", "Read the wrong line")).Value!.Sessions);
        await CorrectAsync(second, "9:40", "The mother remembers the end");
        await _agency.AddAsync(new ClosureRow { OnDay = Tuesday, Name = "Storm" });
        await _agency.AddAsync(new DecisionRow { LearnerId = _team.Wren, ServiceId = _team.Vision.Id, OnDay = Tuesday, Amount = 15, Kind = DecisionKind.MakeUp, DecidedOn = Wednesday, DecidedBy = [_team.Marisol] });
        await HoldAsync(_team.Marisol, Tuesday, Wednesday.PlusDays(1));

        var facts = (await _agency.Get<ReadFactsInOrder>().RunAsync(_agency.Person(_team.Marisol, _team.Wren), _team.Wren, Tuesday, Tuesday.PlusDays(6)))!;

        var told = Assert.Single(facts.Visits);
        Assert.Equal([StoryAct.Scheduled, StoryAct.Moved, StoryAct.Moved, StoryAct.Entered, StoryAct.Corrected, StoryAct.Corrected], told.Story.Select(e => e.Act));
        Assert.Equal((Tuesday, Wednesday, Wednesday.PlusDays(1)), (told.Story[0].Is!.Day, told.Story[1].Is!.Day, told.Story[2].Is!.Day));
        Assert.Equal(["Read the wrong line", "The mother remembers the end"], told.Story.Skip(4).Select(e => e.Why));
        Assert.Equal((40, _team.Odalys, false), (told.Standing!.Credited, told.Story[5].By!.Value, told.UnderHold));
        var end = new LocalDateTime(2026, 9, 17, 9, 45).InZoneStrictly(facts.Zone).ToInstant();
        Assert.Equal(EntryDelay.Of(end, told.Standing is null ? end : told.Story[3].At), told.Story[3].Delay);
        Assert.Equal([Tuesday, Wednesday.PlusDays(1)], facts.Days.Select(d => d.On));
        Assert.Equal([AroundKind.Closure, AroundKind.RecordHold, AroundKind.Decision], facts.Days[0].Around.Select(a => a.Kind));
        Assert.Equal(
            $"15 minutes of {_team.Vision.Code}: make up; decided on 16 September by Marisol Quenby; nobody recorded that the family was told",
            facts.Days[0].Around[2].Decision!.Words(facts.Name));
        Assert.Null(await _agency.Get<ReadFactsInOrder>().RunAsync(_agency.Person(_team.Priya), _team.Wren, Tuesday, Wednesday));
        var scope = _agency.Person(_team.Marisol, _team.Wren);
        Assert.InRange(await Statements.CountAsync(() => _agency.Get<ReadFactsInOrder>().RunAsync(scope, _team.Wren, Tuesday.PlusDays(-200), Tuesday.PlusDays(200))), 4, 10);
    }

    [Fact]
    public async Task Road_is_told_without_whose_visit_lies_at_its_other_end_and_a_file_holds_no_formula()
    {
        var (home, school) = (await PlaceAsync("H1", Place.Home), await PlaceAsync("S1", Place.School));
        await _agency.AddAsync(new LearnerPlaceRow { LearnerId = _team.Wren, Kind = Place.Home, PlaceId = home });
        await _agency.AddAsync(new LearnerPlaceRow { LearnerId = _team.Jonah, Kind = Place.School, PlaceId = school });
        await _agency.AddAsync(new TravelTimeRow { FromPlaceId = home, ToPlaceId = school, Minutes = 20 });
        var jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
        var wrens = await _team.VisitAsync();
        await _team.VisitAsync(jonahs, start: new(10, 0), with: v => { v.Place = Place.School; v.State = VisitState.Logged; }); // 15 minutes after the end
        var session = await LogAsync(wrens);
        await CorrectAsync(session, "9:45", "=HYPERLINK(1)");

        var facts = (await _agency.Get<ReadFactsInOrder>().RunAsync(_agency.Person(_team.Odalys, _team.Wren), _team.Wren, Tuesday, Tuesday))!;

        var travel = Assert.Single(facts.Visits).Travel!;
        Assert.Equal((null, 15, 20, true), (travel.GapBefore, travel.GapAfter, travel.RoadAfter, travel.CannotBeDriven));
        using var sheet = new StringWriter();
        FactsSheet.WriteCsv(sheet, facts);
        Assert.Contains(",'=HYPERLINK(1),", sheet.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("Jonah", sheet.ToString(), StringComparison.Ordinal);
    }

    private async Task<int> PlaceAsync(string code, Place kind) => (await _agency.AddAsync(new PlaceRow { Code = code, Name = code, Kind = kind })).Id;
}
