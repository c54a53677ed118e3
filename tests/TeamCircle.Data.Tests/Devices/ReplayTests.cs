using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Devices;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Devices;

/// <summary>
/// Operations of one device, sent three times: in order, in another order, and from two places at once in yet another; 200 of them, or as many as
/// TEAMCIRCLE_REPLAYS says. The invariants stand in docs/reliability.md.
/// </summary>
public sealed class ReplayTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly int Twentieths = int.Parse(Environment.GetEnvironmentVariable("TEAMCIRCLE_REPLAYS") ?? "200", CultureInfo.InvariantCulture) / 20;
    private static readonly int Practices = 14 * Twentieths, Probes = 3 * Twentieths, Aside = 2 * Twentieths, Malformed = Twentieths;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Operations_three_times_in_any_order_and_from_two_places_end_as_one()
    {
        await using var agency = await TestAgency.CreateAsync(database, "REPLAY");
        var team = await TestTeam.CreateAsync(agency);
        var practice = await TestPractice.CreateAsync(agency, team);
        var device = await practice.DeviceAsync(team, team.Odalys);
        var seed = Environment.TickCount;
        TestContext.Current.TestOutputHelper!.WriteLine($"seed {seed}");
        var chance = new Random(seed);
        var operations = Operations(practice, team);
        chance.Shuffle(operations);

        var first = await SendAsync(agency, team, device, operations);
        var again = await SendAsync(agency, team, device, Shuffled(chance, operations));
        var streams = await Task.WhenAll(
            SendAsync(agency, team, device, Shuffled(chance, operations)), SendAsync(agency, team, device, Shuffled(chance, operations)));

        Assert.Equal((Practices + Probes, Aside, Malformed), (Count(first, OperationEnd.Stored), Count(first, OperationEnd.SetAside), Count(first, OperationEnd.Refused)));
        foreach (var repeat in streams.Prepend(again))
            Assert.Equal(first, repeat); // each act, the same end and the same words
        await FoundAsync(agency, operations, first);
    }

    /// <summary>INV1 to INV5: what was acknowledged is there, once, as it was sent, and nothing else is.</summary>
    private static async Task FoundAsync(TestAgency agency, JsonElement[] operations, Dictionary<Guid, string> answers)
    {
        var kept = await agency.Portal.ReadAsync(agency.WholeAgency, async db => (
            Stored: await db.Operations.Where(o => o.State == OperationState.Stored && (o.Name == "RecordPractice" || o.Name == "AddProbe")).Select(o => o.Id).ToListAsync(Stop),
            Practices: await db.Practices.ToListAsync(Stop), Trials: await db.Trials.CountAsync(Stop), Probes: await db.Probes.CountAsync(Stop), Aside: await db.SetAsides.ToListAsync(Stop)));
        Assert.Equal(answers.Where(a => !a.Value.StartsWith("refused", StringComparison.Ordinal)).Select(a => a.Key).Order(), kept.Stored.Concat(kept.Aside.Select(a => a.OperationId)).Order());
        Assert.Equal((Practices, 2 * Practices, Probes, Aside), (kept.Practices.Count, kept.Trials, kept.Probes, kept.Aside.Count));
        var sent = operations.ToDictionary(o => o.GetProperty("id").GetGuid(), o => o.GetProperty("body"));
        var records = sent.Values.Where(b => b.TryGetProperty("trials", out _)).Select(b => PracticeJson.Read(b.GetRawText())).ToDictionary(r => r.Id, PracticeJson.Write);
        Assert.All(kept.Practices, row => Assert.Equal(records[row.Id], PracticeJson.Write(PracticeJson.Read(row.Record))));
        Assert.All(kept.Aside, row => Assert.Equal(sent[row.OperationId].GetRawText(), row.Body));
    }

    /// <summary>Each act's end and words, as JSON.</summary>
    private static async Task<Dictionary<Guid, string>> SendAsync(TestAgency agency, TestTeam team, Guid device, JsonElement[] operations)
    {
        var caller = await team.CallerAsync(team.Odalys);
        var answers = new Dictionary<Guid, string>();
        foreach (var batch in operations.Chunk(SyncOperations.MostAtOnce))
        {
            foreach (var answer in (await agency.Get<SyncOperations>().RunAsync(caller, device, batch, Stop))!)
                answers.Add(answer.Id!.Value, $"{Core.Words.Of(answer.End)} {answer.Why} {Canonical(answer.Answer)}");
        }
        return answers;
    }

    /// <summary>A database keeps an answer's members in an order of its own.</summary>
    private static string Canonical(object? answer) => answer is null ? "" : string.Join(',', JsonSerializer.SerializeToElement(answer, DeviceJson.Options)
        .EnumerateObject().OrderBy(p => p.Name, StringComparer.Ordinal).Select(p => $"{p.Name}={p.Value}"));

    private static int Count(Dictionary<Guid, string> answers, OperationEnd end) => answers.Values.Count(a => a.StartsWith(Core.Words.Of(end), StringComparison.Ordinal));

    private static JsonElement[] Shuffled(Random chance, JsonElement[] operations)
    {
        JsonElement[] copy = [.. operations];
        chance.Shuffle(copy);
        return copy;
    }

    private static JsonElement[] Operations(TestPractice practice, TestTeam team) =>
    [
        .. Enumerable.Range(0, Practices).Select(_ => practice.Sent(practice.Record())),
        .. Enumerable.Range(0, Probes).Select(i => Probe(team, i % 101)),
        .. Enumerable.Range(0, Aside).Select(i => Probe(team, 101 + i)),
        .. Enumerable.Range(0, Malformed).Select(_ => TestPractice.Sent("probe", new { goalId = team.Gaze.Id, wish = "an unknown member" })),
    ];

    private static JsonElement Probe(TestTeam team, int value) => TestPractice.Sent("probe", new { goalId = team.Gaze.Id, onDay = "2026-09-15", value, opportunities = 8, kind = "teaching" });
}
