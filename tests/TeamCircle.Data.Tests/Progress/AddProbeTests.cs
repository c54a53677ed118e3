using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Progress;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Progress;

public sealed class AddProbeTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"PROBE{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private AddProbe.Input Tuesday => new() { GoalId = _team.Gaze.Id, OnDay = new(2026, 9, 15), Value = 37.5m, Opportunities = 8 };

    private async Task<Outcome<SavedProbe>> AddAsync(int person, AddProbe.Input input, Guid? operation = null) =>
        await _agency.Get<AddProbe>().RunAsync(await _team.CallerAsync(person), operation ?? Guid.CreateVersion7(), input);

    private async Task<Outcome<SavedProbe>> CorrectAsync(int person, Guid probe, decimal value, string? why = "Counted again") =>
        await _agency.Get<CorrectProbe>().RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(),
            new() { Probe = probe, OnDay = new(2026, 9, 15), Value = value, Opportunities = 8, Why = why });

    private Task<List<ProbeRow>> ProbesAsync() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Probes.OrderBy(p => p.Id).ToListAsync());

    [Fact]
    public async Task Probe_of_ones_own_goal_is_stored_without_a_word()
    {
        var saved = await AddAsync(_team.Odalys, Tuesday);

        Assert.Empty(saved.Value!.Notices);
        var probe = Assert.Single(await ProbesAsync());
        Assert.Equal((37.5m, 8, _team.Odalys, _team.Wren), (probe.Value, probe.Opportunities!.Value, probe.ProviderId, probe.LearnerId));
    }

    [Fact]
    public async Task Conditions_are_kept_one_by_one()
    {
        await AddAsync(_team.Odalys, Tuesday with { State = StateOfLearner.QuietAlert, Position = " in her chair ", Side = "left", Place = "  " });

        var probe = Assert.Single(await ProbesAsync());
        Assert.Equal((StateOfLearner.QuietAlert, "in her chair", "left", null), (probe.State, probe.Position, probe.Side, probe.Place));
    }

    [Fact]
    public async Task What_is_missing_or_out_of_range_is_named_at_once()
    {
        Assert.Equal(["Value", "OnDay"], (await AddAsync(_team.Odalys, new() { GoalId = _team.Gaze.Id })).Problems.Select(p => p.Field));
        Assert.Equal(["Value", "OnDay", "PaysOn"], (await AddAsync(_team.Odalys,
            Tuesday with { Value = 101, OnDay = new(2026, 12, 1), PaysOn = new(2026, 7, 1) })).Problems.Select(p => p.Field));
        Assert.Empty(await ProbesAsync());
    }

    [Fact]
    public async Task Second_probe_of_a_day_and_one_by_somebody_else_are_stored_and_said()
    {
        await AddAsync(_team.Odalys, Tuesday);

        Assert.Contains("already a probe", Assert.Single((await AddAsync(_team.Odalys, Tuesday)).Value!.Notices), StringComparison.Ordinal);
        Assert.Contains("does not own", Assert.Single((await AddAsync(_team.Bram, Tuesday)).Value!.Notices), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Same_form_sent_twice_saves_once()
    {
        var operation = Guid.CreateVersion7();

        var first = await AddAsync(_team.Odalys, Tuesday, operation);
        var again = await AddAsync(_team.Odalys, Tuesday, operation);

        Assert.Equal(first.Value!.Probe, again.Value!.Probe);
        Assert.Single(await ProbesAsync());
    }

    [Fact]
    public async Task Another_learners_goal_is_as_if_it_did_not_exist()
    {
        Assert.Equal([Problem.NotFound], (await AddAsync(_team.Priya, Tuesday)).Problems);
        Assert.Equal([Problem.NotFound], (await AddAsync(_team.Ines, Tuesday)).Problems);
        Assert.Equal([Problem.NotFound], (await AddAsync(_team.Odalys, Tuesday with { ProviderId = _team.Bram })).Problems);
        Assert.Equal([Problem.NotFound], (await AddAsync(_team.Odalys, Tuesday with { GoalId = 999_999 })).Problems);
    }

    [Fact]
    public async Task Correction_is_a_new_probe_that_names_the_old_one()
    {
        var first = (await AddAsync(_team.Odalys, Tuesday)).Value!.Probe;

        Assert.Equal("Why", Assert.Single((await CorrectAsync(_team.Odalys, first, 50, " ")).Problems).Field);
        Assert.Equal([Problem.NotFound], (await CorrectAsync(_team.Bram, first, 50)).Problems);
        Assert.Empty((await CorrectAsync(_team.Marisol, first, 50)).Value!.Notices);

        var probes = await ProbesAsync();
        Assert.Equal([false, true], probes.Select(p => p.Live));
        Assert.Equal((first, "Counted again", _team.Odalys, _team.Marisol),
            (probes[1].Replaces!.Value, probes[1].CorrectionReason, probes[1].ProviderId, probes[1].RecordedBy));
    }

    [Fact]
    public async Task Corrections_at_once_leave_one_standing_and_tell_the_others()
    {
        var (first, caller) = ((await AddAsync(_team.Odalys, Tuesday)).Value!.Probe, await _team.CallerAsync(_team.Odalys));

        var all = await Task.WhenAll(Enumerable.Range(0, 20).Select(i => Task.Run(() => _agency.Get<CorrectProbe>().RunAsync(
            caller, Guid.CreateVersion7(), new() { Probe = first, OnDay = new(2026, 9, 15), Value = i, Why = "Counted again" }))));

        Assert.Single(all, o => o.Value is not null);
        Assert.All(all.Where(o => o.Value is null), o => Assert.Equal("Version", Assert.Single(o.Problems).Field));
        Assert.Single(await ProbesAsync(), p => p.Live);
    }

    [Fact]
    public async Task Probe_taken_back_stays_on_record_with_the_reason()
    {
        var first = (await AddAsync(_team.Odalys, Tuesday)).Value!.Probe;
        async Task<Outcome<SavedProbe>> TakeBackAsync(int person, string? why) => await _agency.Get<TakeBackProbe>().RunAsync(
            await _team.CallerAsync(person), Guid.CreateVersion7(), new() { Probe = first, Why = why });

        Assert.Equal([Problem.NotFound], (await TakeBackAsync(_team.Bram, "x")).Problems);
        Assert.Equal("Why", Assert.Single((await TakeBackAsync(_team.Odalys, null)).Problems).Field);
        Assert.NotNull((await TakeBackAsync(_team.Odalys, "Wrong goal")).Value);

        Assert.Equal((false, "Wrong goal"), (Assert.Single(await ProbesAsync()).Live, Assert.Single(await ProbesAsync()).TakenBackReason));
    }
}
