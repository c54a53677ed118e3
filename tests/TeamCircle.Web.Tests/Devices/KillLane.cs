using System.Diagnostics;
using System.Text.Json;
using TeamCircle.Data.People;
using TeamCircle.Testing.Faults;
using TeamCircle.Web.Tests.Startup;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>One portal that is killed again and again, and the devices of one person that send to it; others may do the same on the same database.</summary>
internal sealed class KillLane(FaultTeam team, PersonRow person, Invariants invariants, HeldOperations held, FaultTable table, Func<PortalProcess> start) : IAsyncDisposable
{
    /// <summary>One device for each window, and two that are in none.</summary>
    private const int Devices = 6;

    /// <summary>A portal that takes longer than this to be ready again is counted.</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(10);
    private static readonly Window[] Windows = Enum.GetValues<Window>();
    private readonly SentActs _acts = new();
    private readonly List<DeviceQueue> _devices = [];
    private PortalProcess? _running;

    /// <summary>How long each start took until the portal said that it was ready.</summary>
    public List<TimeSpan> Starts { get; } = [];

    /// <summary>The longest time that the portal took to answer all devices undisturbed: the widest bound of a random kill.</summary>
    public TimeSpan Longest { get; private set; }

    public int Late => Starts.Count(s => s > Soon);

    public async Task OpenAsync()
    {
        await held.OpenAsync();
        for (var i = 0; i < Devices; i++)
            _devices.Add(new(person.Email, await team.DeviceAsync(person), _acts));
        await StartAsync();
    }

    /// <summary>One kill while an operation stands in each window, and others anywhere.</summary>
    public async Task KillInWindowsAsync(Random chance, CancellationToken stop)
    {
        var batches = Batches();
        var (inWindow, last) = (Windows.Select((window, i) => (Operation: SentActs.IdOf(batches[i][chance.Next(FaultTeam.Practices)]), window)).ToList(), Windows[^1]);
        await held.HoldAsync(inWindow);
        var sending = Send(batches, stop);
        await held.ReachedAsync(stop);
        await _running!.KillAsync();
        await Task.WhenAll(sending);
        await held.LetGoAsync(stop);
        var found = await AfterAsync(batches, (i, _) => i < Windows.Length ? $"{Windows[i]}" : "anywhere, beside those", stop);
        Assert.All(inWindow, one => Assert.Equal(one.window == last, found.Stored.Contains(one.Operation))); // else it was killed elsewhere
    }

    /// <summary>One kill at any moment up to the time that the portal took just before to answer such a load: so it comes before storing, amid it and after it.</summary>
    public async Task KillAtRandomAsync(Random chance, CancellationToken stop)
    {
        var waited = Stopwatch.StartNew();
        await Task.WhenAll(Send(Batches(), stop));
        var within = waited.Elapsed * chance.NextDouble();
        Longest = waited.Elapsed > Longest ? waited.Elapsed : Longest;
        var batches = Batches();
        var sending = Send(batches, stop);
        await Task.Delay(within, stop);
        await _running!.KillAsync();
        await Task.WhenAll(sending);
        await AfterAsync(batches, (i, found) => $"at random: {Stage(batches[i], found)}", stop);
    }

    /// <summary>Everything once more, and what then stands.</summary>
    public async Task FinishAsync(CancellationToken stop)
    {
        await Task.WhenAll(_devices.Select(d => d.SendAllAgainAsync(stop)));
        table.Count(await invariants.LookAtTheEndAsync(_acts));
    }

    /// <summary>How far the portal had come with a device's batch when it was killed.</summary>
    private string Stage(JsonElement[] batch, Found found)
    {
        var kept = batch.Select(SentActs.IdOf).Count(id => found.Stored.Contains(id) || found.Aside.Contains(id));
        return _acts.Acknowledged.ContainsKey(SentActs.IdOf(batch[0])) ? "answered"
            : kept == batch.Length ? "all of it kept, and no answer" : kept > 0 ? "amid it" : "before anything was kept";
    }

    private JsonElement[][] Batches() => [.. _devices.Select(_ => team.Acts())];

    private Task<bool>[] Send(JsonElement[][] batches, CancellationToken stop) => [.. _devices.Zip(batches, (device, batch) =>
    {
        device.Put(batch);
        return device.SendAsync(batch, stop);
    })];

    /// <summary>What the database holds before anything is sent again, and then the portal once more and all that nobody was told of.</summary>
    private async Task<Found> AfterAsync(JsonElement[][] batches, Func<int, Found, string> fault, CancellationToken stop)
    {
        var found = await invariants.LookAsync(_acts);
        table.Count();
        table.Count(found);
        for (var i = 0; i < batches.Length; i++)
            table.Count(fault(i, found), _acts, [.. batches[i].Select(SentActs.IdOf)], found);
        await StartAsync();
        await Task.WhenAll(_devices.Select(d => d.DrainAsync(stop)));
        return found;
    }

    private async Task StartAsync()
    {
        var waited = Stopwatch.StartNew();
        _running?.Dispose();
        _running = start();
        var address = await _running.AddressAsync();
        using (var browser = new HttpClient())
            (await browser.GetAsync(new Uri(address, "/health/ready"))).EnsureSuccessStatusCode();
        Starts.Add(waited.Elapsed);
        foreach (var device in _devices)
            await device.TurnToAsync(address);
    }

    public async ValueTask DisposeAsync()
    {
        _running?.Dispose();
        foreach (var device in _devices)
            device.Dispose();
        await held.DisposeAsync();
    }
}
