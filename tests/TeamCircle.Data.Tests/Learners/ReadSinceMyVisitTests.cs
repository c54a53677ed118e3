using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Tests.Calendar;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Learners;

public sealed class ReadSinceMyVisitTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private static readonly LocalDate Last = new(2026, 9, 15);
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"NEWS{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<SinceMyVisit?> ReadAsync(int by)
    {
        var caller = await _team.CallerAsync(by);
        return await _agency.Get<ReadSinceMyVisit>().RunAsync(caller, Scope.Of(caller), _team.Wren);
    }

    /// <summary>Odalys's logged visit of Tuesday 15 September.</summary>
    private async Task LogAsync()
    {
        var visit = await _team.VisitAsync(day: Last, with: v => v.State = VisitState.Logged);
        await _agency.AddAsync(new SessionRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = _team.Wren,
            ServiceId = _team.Vision.Id,
            VisitId = visit.Id,
            ProviderId = _team.Odalys,
            OnDay = Last,
            Outcome = VisitOutcome.Given,
            StartTime = new(9, 0),
            EndTime = new(9, 45),
            Credited = 45,
        });
    }

    private Task<ProbeRow> ProbeAsync(int by, LocalDate day, bool live = true) => _agency.AddAsync(new ProbeRow
    {
        Id = Guid.CreateVersion7(),
        LearnerId = _team.Wren,
        GoalId = _team.Gaze.Id,
        ProviderId = by,
        OnDay = day,
        Value = 50,
        Opportunities = 8,
        Live = live,
    });

    [Fact]
    public async Task Who_has_logged_no_visit_is_told_nothing()
    {
        await LogAsync();

        Assert.Null(await ReadAsync(_team.Bram));
        Assert.Equal((Last, 0), (await ReadAsync(_team.Odalys) is { } since ? (since.LastVisit, since.Items.Count) : default));
    }

    [Fact]
    public async Task Probes_of_others_since_then_are_counted_by_goal_and_ones_own_are_no_news()
    {
        await LogAsync();
        await ProbeAsync(_team.Bram, Last.PlusDays(-1));
        await ProbeAsync(_team.Bram, Last);
        await ProbeAsync(_team.Marisol, Last.PlusDays(2));
        await ProbeAsync(_team.Marisol, Last.PlusDays(3), live: false);
        await ProbeAsync(_team.Odalys, Last.PlusDays(3));

        Assert.Equal(
            [new NewsItem(NewsKind.Probes, Last.PlusDays(2), "vision", _team.Gaze.Id, "Bram Nakamura, Marisol Quenby", 2)], (await ReadAsync(_team.Odalys))!.Items);
    }

    [Fact]
    public async Task Versions_holds_parts_and_changes_of_goals_are_news_in_the_agencys_days()
    {
        await LogAsync();
        var routine = await _agency.AddAsync(new RoutineRow { LearnerId = _team.Wren, Name = "Warm towel hello" });
        // In Los Angeles the first is written at 11 in the evening of the 14th, the second an hour and a half later.
        foreach (var (number, at) in new[] { (1, Instant.FromUtc(2026, 9, 15, 6, 0)), (2, Instant.FromUtc(2026, 9, 15, 7, 30)) })
            await _agency.AddAsync(new RoutineVersionRow { LearnerId = _team.Wren, RoutineId = routine.Id, Number = number, Content = "{}", WrittenBy = _team.Bram, WrittenAt = at });
        await _agency.AddAsync(new HoldRow { LearnerId = _team.Wren, RoutineId = routine.Id, Reason = "New chair", SetBy = _team.Bram, SetAt = Instant.FromUtc(2026, 9, 17, 18, 0) });
        await _agency.AddAsync(new TeachPartRow { LearnerId = _team.Wren, Part = TeachPart.Position, Text = "In her chair", WrittenOn = Last.PlusDays(1), WrittenBy = _team.Marisol });
        await _agency.AddAsync(new GoalChangeRow { LearnerId = _team.Wren, GoalId = _team.Gaze.Id, OnDay = Last.PlusDays(4), Kind = GoalChangeKind.Teaching, Words = "Lower", RecordedBy = _team.Bram });

        var items = (await ReadAsync(_team.Odalys))!.Items;

        Assert.Equal(
            [(NewsKind.GoalChange, Last.PlusDays(4), "vision: Lower"), (NewsKind.HoldSet, Last.PlusDays(2), "New chair"), (NewsKind.TeachPart, Last.PlusDays(1), "Position"), (NewsKind.Version, Last, "Warm towel hello")],
            items.Select(i => (i.Kind, i.Day, i.What)));
        Assert.Equal(2, items[^1].Count);
    }

    [Fact]
    public async Task What_the_plan_gains_is_news_and_what_it_always_promised_is_none()
    {
        await LogAsync();
        await _agency.AddAsync(new ServiceVersionRow { LearnerId = _team.Wren, ServiceId = _team.Vision.Id, Code = "V2", FromDay = new(2026, 10, 5), Quantity = 90, Reason = "Amended" });

        Assert.Equal([NewsKind.Amendment], (await ReadAsync(_team.Odalys))!.Items.Select(i => i.Kind));
    }

    [Fact]
    public async Task It_takes_few_statements()
    {
        await LogAsync();
        var caller = await _team.CallerAsync(_team.Odalys);

        var count = await Statements.CountAsync(() => _agency.Get<ReadSinceMyVisit>().RunAsync(caller, Scope.Of(caller), _team.Wren));

        Assert.InRange(count, 2, 5);
    }
}
