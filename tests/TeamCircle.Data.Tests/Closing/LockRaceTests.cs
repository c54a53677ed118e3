using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Data.Devices;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Closing;

/// <summary>T5 of docs/reliability.md: saves from pages and devices arrive while a count closes. Each is stored before the seal and counted in it, or is
/// refused or set aside whole; the sealed figures equal a recount of the stored rows (INV8).</summary>
public sealed class LockRaceTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    /// <summary>Names the number of closings for the long form.</summary>
    private const string Variable = "TEAMCIRCLE_LOCK_RACE";
    private const int ShortForm = 3, SavesARound = 6;

    private static int Closings => int.TryParse(Environment.GetEnvironmentVariable(Variable), System.Globalization.CultureInfo.InvariantCulture, out var asked) ? asked : ShortForm;

    [Fact]
    public async Task Every_save_that_meets_a_closing_is_in_the_seal_or_not_on_record()
    {
        var seed = Random.Shared.Next();
        await using var agency = await ClosingAgency.CreateAsync(database);
        var practice = await TestPractice.CreateAsync(agency.Agency, agency.Team);
        var race = new Race(agency, await practice.DeviceAsync(agency.Team, agency.Team.Odalys), new Random(seed));
        for (var closing = 1; closing <= Closings; closing++)
        {
            await race.UntilClosedAsync();
            var verified = await agency.VerifyAsync();
            Assert.True(verified is { Misfit: null, Differences.Count: 0 }, $"seed {seed}, closing {closing}: {verified.Misfit} {string.Join(' ', verified.Differences)}");
            await race.CheckAsync($"seed {seed}, closing {closing}");
            if (closing < Closings)
                await agency.ReopenAsync();
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"seed {seed}: {race}");
        Assert.True(race.Met > 0, $"seed {seed}: no save met a closing; the test was blind. {race}");
    }

    private sealed class Race(ClosingAgency agency, Guid device, Random random)
    {
        private readonly ConcurrentDictionary<Guid, byte> _stored = [];
        private readonly ConcurrentDictionary<Guid, byte> _refused = [];
        private readonly ConcurrentDictionary<Guid, byte> _aside = [];
        private int _slot;
        private int _rounds;
        private int _closed;

        /// <summary>Saves that were turned away in a round in which the count closed.</summary>
        public int Met { get; private set; }

        public override string ToString() =>
            $"{_closed} closings in {_rounds} rounds; {_stored.Count} saves stored, {_refused.Count} refused, {_aside.Count} set aside, {Met} of them in the round that closed";

        /// <summary>Round after round: a closing as it was read, and saves beside it. One that comes first changes what was read, and the closing is refused.</summary>
        public async Task UntilClosedAsync()
        {
            while (true)
            {
                _rounds++;
                var turnedAway = _refused.Count + _aside.Count;
                var count = await agency.CountAsync();
                var closing = Task.Run(() => agency.CloseAsync(count));
                await Task.WhenAll([closing, .. Saves()]);
                if ((await closing).Value is null)
                    continue;
                _closed++;
                Met += _refused.Count + _aside.Count - turnedAway;
                return;
            }
        }

        private Task[] Saves()
        {
            Func<Task>[] saves = [.. Enumerable.Range(0, SavesARound).Select(i => i % 3 == 2 ? (Func<Task>)SendAsync : LogAsync)];
            random.Shuffle(saves);
            return [.. saves.Select(Task.Run)];
        }

        private LocalDate NextDay(out int hour)
        {
            var slot = Interlocked.Increment(ref _slot);
            hour = 7 + slot / 40 % 12;
            return new LocalDate(2026, 8, 17).PlusDays(slot % 40 / 5 * 7 + slot % 5);
        }

        private async Task LogAsync()
        {
            var (id, day) = (Guid.CreateVersion7(), NextDay(out var hour));
            var outcome = await agency.LogAsync(day, $"{hour}:00", $"{hour}:15", operation: id);
            (outcome.Value is null ? _refused : _stored).TryAdd(id, 0);
        }

        private async Task SendAsync()
        {
            var (id, day) = (Guid.CreateVersion7(), NextDay(out _));
            var sent = TestPractice.Sent("probe", new { goalId = agency.Team.Gaze.Id, onDay = NodaTime.Text.LocalDatePattern.Iso.Format(day), value = 37.5, opportunities = 8, kind = "probe" }, id);
            var answer = (await agency.Agency.Get<SyncOperations>().RunAsync(await agency.CallerAsync(agency.Team.Odalys), device, [sent]))!.Single();
            (answer.End == OperationEnd.Stored ? _stored : _aside).TryAdd(id, 0);
        }

        /// <summary>What was answered as stored is on record and nothing else, and what was set aside waits whole.</summary>
        public async Task CheckAsync(string when)
        {
            var rows = await agency.ReadAsync(db => db.Changes
                .Where(c => c.Act == "insert" && c.OperationId != null && (c.TableName == "sessions" || c.TableName == "probes")).Select(c => c.OperationId!.Value).ToListAsync());
            Assert.True(_stored.Keys.ToHashSet().SetEquals(rows) && rows.Count == _stored.Count, $"{when}: {rows.Count} rows for {_stored.Count} stored saves");
            var waiting = await agency.ReadAsync(db => db.SetAsides.Select(s => s.OperationId).ToListAsync());
            Assert.True(_aside.Keys.ToHashSet().SetEquals(waiting), $"{when}: {waiting.Count} set aside, {_aside.Count} answered so");
        }
    }
}
