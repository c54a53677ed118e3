using System.Globalization;
using TeamCircle.Testing;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests.Startup;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>
/// T1: the portal is killed with -9 while devices send, in each window of an operation and at random; then they send again what they were not told
/// of. The suite kills once; in the long form several portals on one database are killed, each by itself.
/// </summary>
public sealed class KillTests(RecordingPortal portal) : IClassFixture<RecordingPortal>, IDisposable
{
    private const int LongLanes = 3;
    private readonly string _data = ScratchFolder.Make();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Nothing_acknowledged_is_lost_and_nothing_is_doubled_wherever_the_portal_is_killed()
    {
        var run = FaultRun.Begin("kill-web", inTheSuite: 1);
        var table = new FaultTable();
        var lanes = await LanesAsync(FaultRun.IsLong ? LongLanes : 1, table);
        try
        {
            await Task.WhenAll(lanes.Select(l => l.OpenAsync()));
            await Task.WhenAll(lanes.Select((lane, number) => KillAsync(lane, number, run)));
            table.Count(await portal.ChainAsync());
        }
        finally
        {
            var starts = lanes.SelectMany(l => l.Starts).DefaultIfEmpty().Order().ToList();
            run.Say(string.Create(CultureInfo.InvariantCulture,
                $"Ready again after {starts[starts.Count / 2].TotalSeconds:0.0} s (median of {starts.Count}), at most {starts[^1].TotalSeconds:0.0} s; over ten seconds: {lanes.Sum(l => l.Late)}."));
            run.Say(string.Create(CultureInfo.InvariantCulture, $"Random kills came within the time of the answers just before, {lanes.Max(l => l.Longest).TotalMilliseconds:0} ms at most."));
            run.Write(table);
            foreach (var lane in lanes)
                await lane.DisposeAsync();
        }
        Assert.Empty(table.Broken);
        Assert.NotEmpty(Directory.EnumerateFiles(_data, "*.log", SearchOption.AllDirectories)); // else there is nothing to search
        Assert.Empty(Canaries.InFiles(_data, "*.log", [.. Canaries.Records, .. Canaries.Secrets]));
        Assert.True(table.Unknown > 0, "A run in which every outcome was known has tested nothing.");
    }

    /// <summary>This lane's share of the kills: one in all windows at once, the next at random, and so on.</summary>
    private static async Task KillAsync(KillLane lane, int number, FaultRun run)
    {
        var chance = new Random(run.Seed + number);
        var lanes = FaultRun.IsLong ? LongLanes : 1;
        for (var kill = number; kill < run.Faults; kill += lanes)
        {
            if (kill / lanes % 2 == 0)
                await lane.KillInWindowsAsync(chance, Stop);
            else
                await lane.KillAtRandomAsync(chance, Stop);
        }
        await lane.FinishAsync(Stop);
    }

    private async Task<List<KillLane>> LanesAsync(int count, FaultTable table)
    {
        await HeldOperations.InstallAsync(portal.Database.ConnectionString());
        var team = await FaultTeam.CreateAsync(portal.Agency, portal.Team);
        var lanes = new List<KillLane>();
        for (var i = 0; i < count; i++)
        {
            var lane = i;
            var person = await team.PersonAsync($"tomasz{lane}");
            lanes.Add(new(team, person, new(portal.Database.ConnectionString(), portal.Agency.Id, [person.Id]),
                new(portal.Database.ConnectionString(), lane), table, () => PortalProcess.Start(portal, Path.Combine(_data, $"{lane}"))));
        }
        await portal.AddAccountsAsync();
        for (var i = 0; i < count; i++)
            await portal.GiveCodesAsync($"tomasz{i}@tallowfern.example");
        return lanes;
    }

    public void Dispose() => Directory.Delete(_data, recursive: true);
}
