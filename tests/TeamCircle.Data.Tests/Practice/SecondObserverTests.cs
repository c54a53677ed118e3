using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Practice;

/// <summary>A colleague scores what Odalys practises, at a co-treatment or from a recording. Now is Friday 2 October 2026, 16:00 UTC.</summary>
public sealed class SecondObserverTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private TestPractice _practice = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"SECOND{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _practice = await TestPractice.CreateAsync(_agency, _team);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Outcome<RecordPractice.Saved>> RecordAsync(int who, PracticeRecord record) =>
        await _agency.Get<RecordPractice>().RunAsync(await _team.CallerAsync(who), Guid.CreateVersion7(), new(record));

    private Task<T> ReadAsync<T>(Func<PortalDb, Task<T>> read) => _agency.Portal.ReadAsync(_agency.WholeAgency, read);

    private Task<PracticeRow> RowAsync(Guid practice) => ReadAsync(db => db.Practices.SingleAsync(p => p.Id == practice));

    /// <summary>A second observer's record, begun a minute later on another device.</summary>
    private PracticeRecord Second(PracticeRecord first) => _practice.Record() with { StartedAt = first.StartedAt + Duration.FromMinutes(1), ObservesCode = ObserverCode.Of(first.Id) };

    private async Task<PracticePage> PageAsync(int who, Guid practice)
    {
        var caller = await _team.CallerAsync(who);
        return (await _agency.Get<ReadPractice>().RunAsync(caller, Scope.Of(caller), practice))!;
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Whichever_arrives_first_the_two_find_each_other(bool secondFirst)
    {
        var first = _practice.Record();
        var second = Second(first);
        (int, PracticeRecord)[] sent = secondFirst ? [(_team.Bram, second), (_team.Odalys, first)] : [(_team.Odalys, first), (_team.Bram, second)];
        foreach (var (who, record) in sent)
            Assert.Empty((await RecordAsync(who, record)).Problems);

        Assert.Equal((first.Id, ObserverCode.Of(first.Id)), ((await RowAsync(second.Id)).Observes!.Value, (await RowAsync(second.Id)).ObservesCode));
        var other = Assert.Single((await PageAsync(_team.Odalys, first.Id)).Others);
        Assert.Equal(("Bram Nakamura", 2, 2), (other.Observer, ScoredTwice.Agreement(other.Trials).Agree, ScoredTwice.Agreement(other.Trials).Trials));
        Assert.Equal(first.Id, Assert.Single((await PageAsync(_team.Bram, second.Id)).Others).Practice);
    }

    [Fact]
    public async Task Two_that_arrive_at_the_same_moment_do_not_miss_each_other()
    {
        for (var round = 0; round < 10; round++)
        {
            var first = _practice.Record();
            var second = Second(first);

            await Task.WhenAll(Task.Run(() => RecordAsync(_team.Odalys, first)), Task.Run(() => RecordAsync(_team.Bram, second)));

            Assert.Equal(first.Id, (await RowAsync(second.Id)).Observes);
        }
    }

    [Fact]
    public async Task One_whose_first_practice_never_arrives_is_kept_and_says_so()
    {
        var second = Second(_practice.Record());

        Assert.Empty((await RecordAsync(_team.Bram, second)).Problems);

        Assert.Null((await RowAsync(second.Id)).Observes);
        var page = await PageAsync(_team.Bram, second.Id);
        Assert.Empty(page.Others);
        Assert.True(page.Record.IsSecond);
        var late = _practice.Record() with { StartedAt = second.StartedAt - ObserverCode.Holds - Duration.FromMinutes(1), EndedAt = second.StartedAt - ObserverCode.Holds };
        await RecordAsync(_team.Odalys, late with { Id = SameCode(second.ObservesCode!) }); // a code holds for one practice, not for ever
        Assert.Null((await RowAsync(second.Id)).Observes);
    }

    /// <summary>An id whose code is this one.</summary>
    private static Guid SameCode(string code)
    {
        const string letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
        var bits = code.Aggregate(0u, (sum, letter) => (sum * 32) + (uint)letters.IndexOf(letter, StringComparison.Ordinal));
        return Guid.Parse($"{Guid.CreateVersion7():D}"[..28] + bits.ToString("x8", null));
    }

    [Fact]
    public async Task It_counts_nowhere_no_trial_no_probe_no_offer()
    {
        var first = _practice.Record();
        var second = Second(first);
        await RecordAsync(_team.Odalys, first);
        await RecordAsync(_team.Bram, second);

        Assert.Equal(2, await ReadAsync(db => db.Trials.CountAsync(t => t.AgencyId == _agency.Id)));
        Assert.Empty((await PageAsync(_team.Bram, second.Id)).Goals);
        var probe = await _agency.Get<AddProbe>().RunAsync(await _team.CallerAsync(_team.Bram), Guid.CreateVersion7(),
            new() { GoalId = _team.Gaze.Id, OnDay = _agency.Day(9, 15), Value = 50, Opportunities = 2, PracticeId = second.Id });
        Assert.Equal([Problem.NotFound], probe.Problems);
        var listed = await _agency.Get<ReadPractices>().RunAsync(_agency.WholeAgency, _team.Wren, _practice.Version.RoutineId);
        Assert.Equal([true, false], listed.Select(p => p.IsSecond));
    }

    [Fact]
    public async Task Nobody_observes_themselves_or_the_same_practice_twice_and_a_code_that_is_none_is_refused()
    {
        var first = _practice.Record();
        await RecordAsync(_team.Odalys, first);
        await RecordAsync(_team.Bram, Second(first));

        Assert.Equal(["Observes"], (await RecordAsync(_team.Odalys, Second(first))).Problems.Select(p => p.Field));
        Assert.Equal(["Observes"], (await RecordAsync(_team.Bram, Second(first))).Problems.Select(p => p.Field));
        Assert.Equal(["ObservesCode"], (await RecordAsync(_team.Bram, Second(first) with { ObservesCode = "12345" })).Problems.Select(p => p.Field));
        Assert.Equal(["Observes"], (await RecordAsync(_team.Bram, _practice.Record() with { Observes = Guid.CreateVersion7() })).Problems.Select(p => p.Field));
    }

    [Fact]
    public async Task From_a_recording_it_is_scored_with_whose_consent_it_was_once()
    {
        var first = _practice.Record();
        await RecordAsync(_team.Odalys, first);
        var (operation, marisol) = (Guid.CreateVersion7(), await _team.CallerAsync(_team.Marisol));
        var input = new ScorePractice.Input
        {
            Practice = first.Id,
            Trials = [new(ScorePractice.Seen.Response), new(ScorePractice.Seen.NoResponse)],
            ConsentBy = " Ines Belmares ",
            ConsentOn = new(2026, 9, 14),
        };
        async Task<Outcome<RecordPractice.Saved>> ScoreAsync(Core.People.Caller who, ScorePractice.Input what, Guid? id = null) =>
            await _agency.Get<ScorePractice>().RunAsync(who, id ?? Guid.CreateVersion7(), what);

        Assert.Equal(["ConsentBy", "ConsentOn", "Trials"], (await ScoreAsync(marisol, new() { Practice = first.Id, Trials = [new()] })).Problems.Select(p => p.Field));
        Assert.Equal(["ConsentOn"], (await ScoreAsync(marisol, input with { ConsentOn = new(2026, 10, 3) })).Problems.Select(p => p.Field));
        Assert.Equal([Problem.NotFound], (await ScoreAsync(await _team.CallerAsync(_team.Odalys), input)).Problems); // who practised it
        Assert.Equal([Problem.NotFound], (await ScoreAsync(await _team.CallerAsync(_team.Priya), input)).Problems);
        var saved = (await ScoreAsync(marisol, input, operation)).Value!;
        Assert.Equal(saved.Practice, (await ScoreAsync(marisol, input, operation)).Value!.Practice);
        Assert.Equal(["Observes"], (await ScoreAsync(marisol, input)).Problems.Select(p => p.Field));

        var other = Assert.Single((await PageAsync(_team.Odalys, first.Id)).Others);
        Assert.Equal(new ConsentedRecording("Ines Belmares", new(2026, 9, 14)), other.From);
        Assert.Equal((1, 2), (ScoredTwice.Agreement(other.Trials).Agree, ScoredTwice.Agreement(other.Trials).Trials)); // the second came after a prompt, she saw none
    }
}
