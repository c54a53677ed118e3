using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using TeamCircle.Data;
using TeamCircle.Data.History;
using TeamCircle.Data.People;
using TeamCircle.Testing.Faults;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>Several devices of one person that send batch after batch while something is broken, and then what they were not told of.</summary>
internal sealed class Load : IDisposable
{
    private readonly FaultTeam _team;
    private readonly Func<Task<Found>> _chain;
    private readonly List<DeviceQueue> _devices = [];

    private Load(FaultTeam team, Invariants invariants, Func<Task<Found>> chain) => (_team, Invariants, _chain) = (team, invariants, chain);

    public SentActs Acts { get; } = new();
    public Invariants Invariants { get; }

    /// <param name="patience">How long a device waits for an answer.</param>
    public static async Task<Load> CreateAsync(RecordingPortal portal, int devices, TimeSpan patience)
    {
        var team = await FaultTeam.CreateAsync(portal.Agency, portal.Team);
        var person = await team.PersonAsync("tomasz");
        await portal.AddAccountsAsync();
        await portal.GiveCodesAsync(person.Email);
        return await CreateAsync(team, person, new(portal.Database.ConnectionString(), portal.Agency.Id, [person.Id]), () => ChainAsync(portal), devices, patience);
    }

    /// <summary>The same where no portal of the tests serves the database.</summary>
    /// <param name="person">Whose devices send; the account is there.</param>
    /// <param name="chain">Looks at the chain of sealed blocks.</param>
    public static async Task<Load> CreateAsync(FaultTeam team, PersonRow person, Invariants invariants, Func<Task<Found>> chain, int devices, TimeSpan patience)
    {
        var load = new Load(team, invariants, chain);
        for (var i = 0; i < devices; i++)
            load._devices.Add(new(person.Email, await team.DeviceAsync(person), load.Acts, patience));
        return load;
    }

    /// <summary>Turns the devices to these portals, one after the other.</summary>
    public async Task TurnToAsync(params IReadOnlyList<Uri> portals)
    {
        for (var i = 0; i < _devices.Count; i++)
            await _devices[i].TurnToAsync(portals[i % portals.Count]);
    }

    /// <summary>Signs everybody in anew, at the portal that the device is turned to.</summary>
    public async Task SignInAnewAsync()
    {
        foreach (var device in _devices)
            await device.SignInAnewAsync();
    }

    /// <inheritdoc cref="DeviceQueue.OpenAsync"/>
    public Task<HttpResponseMessage> OpenAsync(string page, CancellationToken stop) => _devices[0].OpenAsync(page, stop);

    /// <summary>Sends until the fault is there and every request under way has ended. A device that got no answer sends the same again, as the shell does.</summary>
    /// <returns>All that was sent meanwhile.</returns>
    public async Task<IReadOnlyCollection<Guid>> SendUntilAsync(Func<Task> fault, CancellationToken stop)
    {
        var (sent, isThere) = (new ConcurrentDictionary<Guid, byte>(), false);
        async Task SendAsync(DeviceQueue device)
        {
            using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
            while (!Volatile.Read(ref isThere))
            {
                if (device.Waiting.Count == 0)
                    device.Put(_team.Acts());
                IReadOnlyList<JsonElement> batch = [.. device.Waiting.Take(50)];
                foreach (var operation in batch)
                    sent.TryAdd(SentActs.IdOf(operation), 0);
                if (!await device.SendAsync(batch, stop))
                    await pace.WaitForNextTickAsync(stop);
            }
        }
        var sending = _devices.Select(SendAsync).ToList();
        try
        {
            await fault();
        }
        finally
        {
            Volatile.Write(ref isThere, true);
            await Task.WhenAll(sending);
        }
        return [.. sent.Keys];
    }

    /// <summary>Sends what waits until all of it is answered.</summary>
    /// <returns>How many requests were not answered on the way.</returns>
    /// <exception cref="InvalidOperationException">The portal does not come back.</exception>
    public async Task<int> DrainAsync(CancellationToken stop)
    {
        const int mostRefusals = 300;
        var refused = 0;
        async Task SendAsync(DeviceQueue device)
        {
            using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(100));
            while (device.Waiting is { Count: > 0 } waiting)
                if (!await device.SendAsync([.. waiting.Take(50)], stop))
                {
                    if (Interlocked.Increment(ref refused) > mostRefusals)
                        throw new InvalidOperationException("The portal does not answer though its database stands again.");
                    await pace.WaitForNextTickAsync(stop);
                }
        }
        await Task.WhenAll(_devices.Select(SendAsync));
        return refused;
    }

    /// <summary>Waits until so many more requests have gone without an answer.</summary>
    public async Task RefusedAsync(int more, CancellationToken stop)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
        var before = Unanswered;
        while (Unanswered < before + more)
            await pace.WaitForNextTickAsync(stop);
    }

    /// <summary>Waits until so many more acts are acknowledged.</summary>
    public async Task AcknowledgedAsync(int more, CancellationToken stop)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(20));
        var before = Acts.Acknowledged.Count;
        while (Acts.Acknowledged.Count < before + more)
            await pace.WaitForNextTickAsync(stop);
    }

    /// <summary>What came in place of answers so far, as "503: 12".</summary>
    public string InsteadOfAnswers => string.Join(", ", _devices.SelectMany(d => d.InsteadOfAnAnswer).GroupBy(i => i.Key).Select(i => string.Create(CultureInfo.InvariantCulture, $"{i.Key}: {i.Sum(n => n.Value)}")));

    private int Unanswered => _devices.Sum(d => d.InsteadOfAnAnswer.Values.Sum());

    /// <summary>Everything once more, what then stands, and the chain of sealed blocks.</summary>
    public async Task FinishAsync(FaultTable table, CancellationToken stop)
    {
        await Task.WhenAll(_devices.Select(d => d.SendAllAgainAsync(stop)));
        table.Count(await Invariants.LookAtTheEndAsync(Acts));
        table.Count(await _chain());
    }

    /// <summary>The chain, over a connection of its own: those that the tests' portal keeps open may have died with the database.</summary>
    private static async Task<Found> ChainAsync(RecordingPortal portal)
    {
        var own = new StandbyReads(portal.Agency.Portal, portal.Database.ConnectionString(Migrate.App) + ";Pooling=false").Portal;
        var verified = await new VerifyChanges(own, new SealKey(portal.SealKeyFile)).RunAsync(portal.Agency.Id);
        return new(ImmutableHashSet<Guid>.Empty, ImmutableHashSet<Guid>.Empty, ["INV6"], verified.Misfit is { } misfit ? [$"INV6: {misfit}"] : []);
    }

    public void Dispose()
    {
        foreach (var device in _devices)
            device.Dispose();
    }
}
