using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Routines;

/// <summary>Routines: added, planned at visits and at home, practised, and seen in the coverage. Today is Friday 2 October 2026.</summary>
public sealed class RoutineTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Today = new(2026, 10, 2), Monday = new(2026, 10, 5);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"ROUT{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Outcome<AddRoutine.Saved>> AddAsync(string? name, int? person = null, string? cue = null) => await _agency.Get<AddRoutine>()
        .RunAsync(await _team.CallerAsync(person ?? _team.Odalys), Guid.CreateVersion7(), new() { Learner = _team.Wren, Name = name, ObjectCue = cue });

    private async Task<int> RoutineAsync(string name = "Watering the herbs", string? cue = "the small can") => (await AddAsync(name, cue: cue)).Value!.Routine;

    private async Task<Outcome<PlanAtVisits.Saved>> PlanAsync(int routine, string[] shown, string[] ticked, int? person = null) => await _agency.Get<PlanAtVisits>().RunAsync(
        await _team.CallerAsync(person ?? _team.Odalys), Guid.CreateVersion7(), new() { Learner = _team.Wren, Routine = routine, Shown = shown, Ticked = ticked });

    private async Task<RoutinesPage> ReadAsync(int? person = null)
    {
        var caller = await _team.CallerAsync(person ?? _team.Odalys);
        return (await _agency.Get<ReadRoutines>().RunAsync(caller, Scope.Of(caller), _team.Wren))!;
    }

    private async Task<RoutineCoverage> CoverageAsync(int routine, LocalDate day, int weeks = 1) =>
        (await _agency.Get<ReadCoverage>().RunAsync(_agency.Person(_team.Odalys, _team.Wren), _team.Wren, day, weeks)).Routines.Single(r => r.Id == routine);

    private Task<List<Guid>> VisitsWithAsync(int routine) =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.VisitRoutines.Where(r => r.RoutineId == routine).Select(r => r.VisitId).ToListAsync());

    private async Task<(SeriesRow Series, VisitRow[] Visits)> SeriesAsync()
    {
        var series = await _agency.AddAsync(new SeriesRow
        {
            LearnerId = _team.Wren,
            ServiceId = _team.Vision.Id,
            ProviderId = _team.Odalys,
            Rule = "FREQ=WEEKLY;BYDAY=MO",
            FirstDay = Monday.PlusWeeks(-1),
            StartTime = new(9, 0),
            Minutes = 30,
            Zone = "America/Los_Angeles",
            WrittenTo = Monday.PlusWeeks(2),
        });
        var visits = new List<VisitRow>();
        for (var week = -1; week <= 2; week++)
        {
            var day = Monday.PlusWeeks(week);
            visits.Add(await _team.VisitAsync(day: day, minutes: 30, with: v => (v.SeriesId, v.OriginalStart) = (series.Id, day + new LocalTime(9, 0))));
        }
        return (series, [.. visits]);
    }

    [Fact]
    public async Task Team_members_add_routines_and_others_find_no_learner()
    {
        Assert.Empty((await AddAsync(" Watering the herbs ", cue: " ")).Problems);
        Assert.Equal([Problem.NotFound], (await AddAsync("X", _team.Priya)).Problems);
        Assert.Equal([Problem.NotFound], (await AddAsync("X", _team.Ines)).Problems);

        var routine = Assert.Single((await ReadAsync()).Routines);
        Assert.Equal(("Watering the herbs", null), (routine.Name, routine.ObjectCue));
    }

    [Fact]
    public async Task Name_is_needed_and_stands_once()
    {
        await AddAsync("Warm towel hello");

        Assert.Equal("Name", Assert.Single((await AddAsync(" ")).Problems).Field);
        Assert.Equal("Name", Assert.Single((await AddAsync("warm towel HELLO")).Problems).Field);
        Assert.Equal("Name", Assert.Single((await AddAsync(new string('x', 81))).Problems).Field);
        Assert.Equal("ObjectCue", Assert.Single((await AddAsync("Y", cue: new string('x', 201))).Problems).Field);
    }

    [Fact]
    public async Task Series_that_is_ticked_keeps_the_routine_and_its_visits_from_today_on_have_it()
    {
        var routine = await RoutineAsync();
        var (series, visits) = await SeriesAsync();

        Assert.Empty((await PlanAsync(routine, [$"s{series.Id}"], [$"s{series.Id}"])).Problems);

        Assert.Equal(visits[1..].Select(v => v.Id).Order(), (await VisitsWithAsync(routine)).Order()); // last Monday's is past
        Assert.Contains($"s{series.Id}", (await ReadAsync()).Routines.Single().Slots);
        await PlanAsync(routine, [$"s{series.Id}"], []);
        Assert.Empty(await VisitsWithAsync(routine));
        Assert.Empty((await ReadAsync()).Routines.Single().Slots);
    }

    [Fact]
    public async Task Only_what_the_form_showed_is_changed()
    {
        var routine = await RoutineAsync();
        var (series, _) = await SeriesAsync();
        var alone = await _team.VisitAsync(day: Monday.PlusDays(1));
        await PlanAsync(routine, [$"v{alone.Id}"], [$"v{alone.Id}"]);

        await PlanAsync(routine, [$"s{series.Id}"], [$"v{alone.Id}"]); // ticked what it did not show, showed what it did not tick

        Assert.Equal([alone.Id], await VisitsWithAsync(routine));
        Assert.Equal([Problem.NotFound], (await PlanAsync(routine, [], [], _team.Priya)).Problems);
        Assert.Equal([Problem.NotFound], (await PlanAsync(routine + 1000, [], [])).Problems);
    }

    [Fact]
    public async Task Home_days_are_set_as_a_whole_and_what_ended_stays_on_record()
    {
        var routine = await RoutineAsync();
        async Task<IEnumerable<HomeDay>> PlanHomeAsync(string? who, params IsoDayOfWeek[] days)
        {
            var saved = await _agency.Get<PlanAtHome>().RunAsync(await _team.CallerAsync(_team.Bram), Guid.CreateVersion7(),
                new() { Learner = _team.Wren, Routine = routine, Weekdays = days, Who = who });
            Assert.Empty(saved.Problems);
            return (await ReadAsync()).Routines.Single().Home;
        }

        await PlanHomeAsync("her mother", IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday);
        Assert.Equal([new(IsoDayOfWeek.Monday, null, "her mother"), new(IsoDayOfWeek.Saturday, null, "her mother")],
            await PlanHomeAsync("her mother", IsoDayOfWeek.Monday, IsoDayOfWeek.Saturday));
        Assert.Equal([new(IsoDayOfWeek.Monday, null, null)], await PlanHomeAsync(null, IsoDayOfWeek.Monday));
        Assert.Equal(4, await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.HomePractice.IgnoreQueryFilters().CountAsync()));
    }

    [Fact]
    public async Task Coverage_tells_planned_from_practised_and_by_whom_and_a_correction_keeps_it()
    {
        var (herbs, towel) = (await RoutineAsync(), await RoutineAsync("Warm towel hello"));
        var visit = await _team.VisitAsync(day: Today, start: new(8, 0));
        foreach (var routine in new[] { herbs, towel })
            await PlanAsync(routine, [$"v{visit.Id}"], [$"v{visit.Id}"]);

        Assert.Equal(["Odalys Ferreira"], (await CoverageAsync(herbs, Today)).Cells[Today].Planned);
        var logged = await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Visits = [visit.Id], Routines = [herbs, 99999] });
        Assert.Empty(logged.Problems);

        var (done, left) = ((await CoverageAsync(herbs, Today)).Cells[Today], (await CoverageAsync(towel, Today)).Cells[Today]);
        Assert.Equal((0, "Odalys Ferreira"), (done.Planned.Count, Assert.Single(done.Practised)));
        Assert.Equal(("Odalys Ferreira", 0), (Assert.Single(left.Planned), left.Practised.Count));
        await _agency.Get<CorrectSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(),
            new() { Session = logged.Value!.Sessions[0], Start = "8:00", End = "8:40", Reason = Core.Sessions.Reason.LearnerUnwell, Why = "ended early", Routines = [towel] });
        Assert.True((await CoverageAsync(towel, Today)).IsPractised);
        Assert.False((await CoverageAsync(herbs, Today)).IsPractised);
    }

    [Fact]
    public async Task Coverage_leaves_out_called_off_visits_and_home_practice_from_before_it_was_agreed()
    {
        var routine = await RoutineAsync();
        var visit = await _team.VisitAsync(day: Monday);
        await PlanAsync(routine, [$"v{visit.Id}"], [$"v{visit.Id}"]);
        await _agency.ChangeAsync<VisitRow>(v => v.Id == visit.Id, v => v.State = VisitState.CalledOff);
        await _agency.AddAsync(new HomePracticeRow { LearnerId = _team.Wren, RoutineId = routine, Weekday = IsoDayOfWeek.Monday, Who = "Ines", RecordedAt = Instant.FromUtc(2026, 10, 1, 12, 0) });

        var cells = (await CoverageAsync(routine, Monday, weeks: 2)).Cells;

        Assert.Equal((0, "Ines"), (cells[Monday].Planned.Count, Assert.Single(cells[Monday].Home)));
        Assert.Single(cells);
    }

    private async Task<Outcome<LogAtHome.Saved>> LogAtHomeAsync(int routine, LocalDate? day, string? who, int? person = null) => await _agency.Get<LogAtHome>().RunAsync(
        await _team.CallerAsync(person ?? _team.Odalys), Guid.CreateVersion7(), new() { Learner = _team.Wren, Routine = routine, OnDay = day, Who = who, HowItWent = "She held the towel and laughed." });

    [Fact]
    public async Task What_was_practised_at_home_stands_in_the_coverage_in_place_of_what_was_agreed()
    {
        var routine = await RoutineAsync();
        await _agency.AddAsync(new HomePracticeRow { LearnerId = _team.Wren, RoutineId = routine, Weekday = IsoDayOfWeek.Friday, Who = "Ines", RecordedAt = Instant.FromUtc(2026, 9, 1, 12, 0) });
        var agreed = (await CoverageAsync(routine, Today)).Cells[Today];

        var logged = (await LogAtHomeAsync(routine, Today, "her mother")).Value!;

        var told = await CoverageAsync(routine, Today);
        Assert.Equal(("Ines", 0), (Assert.Single(agreed.Home), agreed.PractisedAtHome.Count));
        Assert.Equal((0, "her mother", true), (told.Cells[Today].Home.Count, Assert.Single(told.Cells[Today].PractisedAtHome), told.IsPractised));
        var page = (await _agency.Get<ReadHomeLogs>().RunAsync(await _team.CallerAsync(_team.Marisol), Scope.Of(await _team.CallerAsync(_team.Marisol)), _team.Wren))!;
        Assert.Equal(("She held the towel and laughed.", "Odalys Ferreira"), (page.Logs.Single().HowItWent, page.Logs.Single().By));

        Assert.Equal("Why", Assert.Single((await TakeBackAsync(logged.Log, " ")).Problems).Field);
        Assert.Empty((await TakeBackAsync(logged.Log, "It was another routine")).Problems);
        Assert.False((await CoverageAsync(routine, Today)).IsPractised);
    }

    private async Task<Outcome<TakeBackHomeLog.Saved>> TakeBackAsync(int log, string why) => await _agency.Get<TakeBackHomeLog>().RunAsync(
        await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Learner = _team.Wren, Log = log, Why = why });

    [Fact]
    public async Task What_is_told_of_home_needs_who_and_a_day_that_was_and_somebody_of_the_team()
    {
        var routine = await RoutineAsync();

        Assert.Equal(["OnDay", "Who"], (await LogAtHomeAsync(routine, Today.PlusDays(1), " ")).Problems.Select(p => p.Field));
        Assert.Equal("OnDay", Assert.Single((await LogAtHomeAsync(routine, Today.PlusDays(-61), "her mother")).Problems).Field);
        Assert.Equal([Problem.NotFound], (await LogAtHomeAsync(routine, Today, "her mother", _team.Priya)).Problems);
        Assert.Equal([Problem.NotFound], (await LogAtHomeAsync(0, Today, "her mother")).Problems);
    }

    [Fact]
    public async Task Coverage_goes_by_the_agencys_own_weeks()
    {
        await RoutineAsync();
        await using (var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted))
        {
            (await work.Db.Agencies.SingleAsync()).WeekStart = IsoDayOfWeek.Wednesday;
            await work.Db.SaveChangesAsync();
            await work.CommitAsync();
        }

        var weeks = (await _agency.Get<ReadCoverage>().RunAsync(_agency.Person(_team.Odalys, _team.Wren), _team.Wren, Today, weeks: 2)).Weeks;

        Assert.Equal([new(2026, 9, 23), new LocalDate(2026, 9, 30)], weeks.Select(w => w.First));
        Assert.Equal([new(2026, 9, 30), new(2026, 10, 1), Today, new(2026, 10, 5), new LocalDate(2026, 10, 6)], weeks[^1].Days);
    }

    [Theory]
    [InlineData(16, 0, new[] { StripTime.Now, StripTime.ToCome, StripTime.ToCome })] // 9:00 there
    [InlineData(16, 45, new[] { StripTime.Past, StripTime.Now, StripTime.ToCome })]
    [InlineData(23, 0, new[] { StripTime.Past, StripTime.Past, StripTime.ToCome })]
    public async Task Day_strip_has_the_days_things_in_order_and_knows_what_is_past(int hour, int minute, StripTime[] times)
    {
        var (towel, herbs, fan) = (await RoutineAsync("Warm towel hello", "the towel"), await RoutineAsync(), await RoutineAsync("Fan and ribbons", null));
        var (late, early) = (await _team.VisitAsync(day: Today, start: new(13, 0)), await _team.VisitAsync(day: Today, start: new(9, 0)));
        await PlanAsync(herbs, [$"v{late.Id}"], [$"v{late.Id}"]);
        await PlanAsync(towel, [$"v{early.Id}"], [$"v{early.Id}"]);
        await _agency.AddAsync(new HomePracticeRow { LearnerId = _team.Wren, RoutineId = fan, OnDay = Today, Who = "her mother" });
        _agency.Clock.SetUtcNow(new DateTimeOffset(2026, 10, 2, hour, minute, 0, TimeSpan.Zero));
        var caller = await _team.CallerAsync(_team.Bram);

        var strip = await _agency.Get<ReadDayStrip>().RunAsync(caller, Scope.Of(caller), _team.Wren, Today);

        Assert.Equal(["the towel", "the small can", null], strip!.Things.Select(t => t.ObjectCue));
        Assert.Equal([new LocalTime(9, 0), new LocalTime(13, 0), null], strip.Things.Select(t => t.At));
        Assert.Equal(times, strip.Things.Select(t => t.Time));
        Assert.All((await _agency.Get<ReadDayStrip>().RunAsync(caller, Scope.Of(caller), _team.Wren, Today.PlusDays(1)))!.Things, t => Assert.Equal(StripTime.ToCome, t.Time));
    }
}
