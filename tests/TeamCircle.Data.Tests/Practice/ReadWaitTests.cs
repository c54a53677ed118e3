using NodaTime;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Routines;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Practice;

/// <summary>Times to respond and many hands, read over all that was practised. Each test has an agency of its own.</summary>
public sealed class ReadWaitTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private TestPractice _practice = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"WAIT{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _practice = await TestPractice.CreateAsync(_agency, _team);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Scope> ScopeAsync(int person) => Scope.Of(await _team.CallerAsync(person));

    private async Task<Guid> RecordAsync(int person, PracticeRecord record)
    {
        var outcome = await _agency.Get<RecordPractice>().RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), new(record));
        return outcome.Value?.Practice ?? throw new InvalidOperationException(string.Join(" ", outcome.Problems.Select(p => p.Message)));
    }

    /// <summary>Another version of the card, with a wait of so many seconds.</summary>
    private Task<RoutineVersionRow> VersionAsync(int number, int wait, Instant at) => _agency.AddAsync(new RoutineVersionRow
    {
        LearnerId = _team.Wren,
        RoutineId = _practice.Version.RoutineId,
        Number = number,
        Content = (TestPractice.Card(_team.Gaze.Id) with { WaitSeconds = wait, Place = Core.Learners.Place.School }).Write(),
        WrittenBy = _team.Odalys,
        WrittenAt = at,
    });

    [Fact]
    public async Task Routine_has_its_trials_with_the_conditions_they_were_under()
    {
        var record = _practice.Record() with { Conditions = new() { Side = "From her left.", Position = "chair", State = new(StateOfLearner.QuietAlert) } };
        await RecordAsync(_team.Odalys, record);
        await RecordAsync(_team.Bram, _practice.Record());

        var page = (await _agency.Get<ReadWait>().OfRoutineAsync(await ScopeAsync(_team.Bram), _practice.Version.RoutineId))!;

        Assert.Equal(("Watering the herbs", "Wren Belmares"), (page.Name, page.Learner));
        Assert.Equal((4, 2, 12.5m), (page.Report.Curve.Trials, page.Report.Curve.Answered, page.Report.Curve.Longest));
        Assert.Equal([("From her left", "chair", "quiet alert", 2), (null, null, null, 2)],
            page.Report.Cells.OrderBy(c => c.Side is null).Select(c => (c.Side, c.Position, c.State, c.Curve.Trials)));
        Assert.Equal([12], page.Report.Waits);
        Assert.Equal(2, page.Report.InLastQuarter); // at 10 of 12 seconds, twice
        Assert.Equal([_team.Odalys, _team.Bram], page.Report.ByPerson.Select(p => p.Person).Order());
        Assert.Null(page.Report.Lengthened);
    }

    [Fact]
    public async Task Goal_has_the_trials_that_served_it_over_all_routines()
    {
        var other = await _team.GoalAsync(_team.Wren, _team.Bram);
        var fan = await TestPractice.CreateAsync(_agency, _team, "Fan and ribbons", TestPractice.Card(other.Id));
        await RecordAsync(_team.Odalys, _practice.Record());
        await RecordAsync(_team.Odalys, fan.Record());
        var read = _agency.Get<ReadWait>();

        Assert.Equal(2, (await read.OfGoalAsync(await ScopeAsync(_team.Odalys), _team.Gaze.Id))!.Report.Curve.Trials);
        Assert.Equal(2, (await read.OfGoalAsync(await ScopeAsync(_team.Odalys), other.Id))!.Report.Curve.Trials);
    }

    [Fact]
    public async Task Longer_wait_parts_the_trials_by_their_version()
    {
        var second = await VersionAsync(2, 16, Instant.FromUtc(2026, 9, 20, 5, 0)); // still 19 September where the agency is
        await RecordAsync(_team.Odalys, _practice.Record());
        await RecordAsync(_team.Odalys, _practice.Record() with { Version = second.Id });
        await RecordAsync(_team.Bram, _practice.Record() with { Version = second.Id });

        var report = (await _agency.Get<ReadWait>().OfRoutineAsync(await ScopeAsync(_team.Odalys), _practice.Version.RoutineId))!.Report;

        Assert.Equal((2, new LocalDate(2026, 9, 19), 12, 16), (report.Lengthened!.Version, report.Lengthened.On, report.Lengthened.From, report.Lengthened.To));
        Assert.Equal((2, 4), (report.AroundLengthening!.Value.Before.Trials, report.AroundLengthening.Value.After.Trials));
        Assert.Equal([("school", 4), (null, 2)], report.ByPlace.Groups.Select(g => (g.Name, g.Curve.Trials)));
    }

    [Fact]
    public async Task Trials_without_a_time_are_counted_and_left_out()
    {
        var (live, other) = (_practice.Record(), _practice.Record());
        await RecordAsync(_team.Odalys, live with { Trials = [live.Trials[0] with { AtOnce = true }, live.Trials[1] with { Interrupted = true }] });
        await RecordAsync(_team.Odalys, other with { Entry = PracticeEntry.Remembered, Trials = [other.Trials[0] with { Events = [], Remembered = new(0, 4) }] });

        var report = (await _agency.Get<ReadWait>().OfRoutineAsync(await ScopeAsync(_team.Odalys), _practice.Version.RoutineId))!.Report;

        Assert.Equal([(LeftOut.AtOnce, 1), (LeftOut.Remembered, 1), (LeftOut.Interrupted, 1)], report.LeftOut);
        Assert.Equal(0, report.Curve.Trials);
    }

    [Fact]
    public async Task Somebody_of_another_team_finds_nothing()
    {
        await RecordAsync(_team.Odalys, _practice.Record());
        var scope = await ScopeAsync(_team.Priya);

        Assert.Null(await _agency.Get<ReadWait>().OfRoutineAsync(scope, _practice.Version.RoutineId));
        Assert.Null(await _agency.Get<ReadWait>().OfGoalAsync(scope, _team.Gaze.Id));
        Assert.Null(await _agency.Get<ReadHands>().RunAsync(scope, _practice.Version.RoutineId));
        Assert.Null(await _agency.Get<ReadEffects>().RunAsync(scope, _team.Gaze.Id));
    }

    [Fact]
    public async Task Many_hands_show_what_each_recorded_and_never_a_parent()
    {
        var record = _practice.Record();
        await RecordAsync(_team.Odalys, record);
        await RecordAsync(_team.Odalys, _practice.Record() with { Steps = [new("show", HowDone.AsWritten), new("press", HowDone.Otherwise, "The can was empty")] });
        await RecordAsync(_team.Bram, _practice.Record());
        var page = (await _agency.Get<ReadHands>().RunAsync(await ScopeAsync(_team.Marisol), _practice.Version.RoutineId))!;

        Assert.Equal([("Odalys Ferreira", 2), ("Bram Nakamura", 1)], page.Hands.Select(h => (h.Name, h.Hands.Practices)));
        Assert.Equal([new(2, 4), new(1, 2)], page.Hands.Select(h => h.Hands.WithoutHelp));
        Assert.Equal([new(3, 4), new(2, 2)], page.Hands.Select(h => h.Hands.Steps));
        Assert.Empty(page.Observed);

        await _agency.AddAsync(new RelationRow { PersonId = _team.Bram, LearnerId = _team.Wren, Kind = Core.People.Relation.Family, FromDay = new(2026, 8, 17) });
        page = (await _agency.Get<ReadHands>().RunAsync(await ScopeAsync(_team.Marisol), _practice.Version.RoutineId))!;
        Assert.Equal(["Odalys Ferreira"], page.Hands.Select(h => h.Name));
    }

    [Fact]
    public async Task Second_observer_is_agreement_and_no_practice_of_its_own()
    {
        var first = await RecordAsync(_team.Odalys, _practice.Record());
        await RecordAsync(_team.Bram, _practice.Record() with { Observes = first });
        var scope = await ScopeAsync(_team.Marisol);

        var page = (await _agency.Get<ReadHands>().RunAsync(scope, _practice.Version.RoutineId))!;

        Assert.Equal(["Odalys Ferreira"], page.Hands.Select(h => h.Name));
        var agreement = ScoredTwice.Agreement(page.Observed);
        Assert.Equal((1, 2, 2, 1.0), (page.ObservedPractices, agreement.Trials, agreement.Agree, agreement.Kappa.Value));
        Assert.Equal(2, (await _agency.Get<ReadWait>().OfRoutineAsync(scope, _practice.Version.RoutineId))!.Report.Curve.Trials);
    }

    [Fact]
    public async Task Effects_rest_on_the_data_that_count_before_and_during_teaching()
    {
        await _agency.ChangeAsync<GoalRow>(g => g.Id == _team.Gaze.Id, g => g.TeachingFrom = new LocalDate(2026, 9, 7));
        (int Day, decimal Value, ProbeKind Kind, Stage? Stage)[] probes =
        [
            (1, 2, ProbeKind.Probe, null), (2, 3, ProbeKind.Probe, null), (3, 3, ProbeKind.Probe, null), (4, 9, ProbeKind.Teaching, null),
            (8, 5, ProbeKind.Probe, null), (9, 6, ProbeKind.Probe, null), (10, 3, ProbeKind.Probe, null), (11, 9, ProbeKind.Probe, Stage.Elsewhere), (12, 9, ProbeKind.Probe, Stage.Upkeep),
        ];
        foreach (var (day, value, kind, stage) in probes)
        {
            await _agency.AddAsync(new ProbeRow
            {
                Id = Guid.CreateVersion7(),
                LearnerId = _team.Wren,
                GoalId = _team.Gaze.Id,
                ProviderId = _team.Odalys,
                RecordedBy = _team.Odalys,
                OnDay = new(2026, 9, day),
                Value = value,
                Opportunities = 8,
                Kind = kind,
                Stage = stage,
            });
        }

        var page = (await _agency.Get<ReadEffects>().RunAsync(await ScopeAsync(_team.Odalys), _team.Gaze.Id))!;

        Assert.Equal((3, 3, new LocalDate(2026, 9, 7)), (page.Before, page.During, page.TeachingFrom!.Value));
        Assert.Equal(8.0 / 9, page.Overlap.Nap.Value.Value!.Value, 1e-12);
    }
}
