using System.Collections.Concurrent;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.People;
using TeamCircle.Data.MakeUps;

namespace TeamCircle.Web.Pages.MakeUps;

/// <summary>The searches that people have begun, one each, and the visits that they do not want. One search runs at a time, in a
/// process of its own that gives way to the pages; the others wait.</summary>
public sealed class MakeUpRuns(IHostApplicationLifetime lifetime, TimeProvider clock, ILogger<MakeUpRuns> log) : IDisposable
{
    /// <summary>On two idle processors; the most that anybody waits for, unless others are before.</summary>
    public static readonly Effort Effort = new(20);

    private static readonly TimeSpan Kept = TimeSpan.FromHours(2);

    private readonly ConcurrentDictionary<(int Agency, int Person), (MakeUpRun Run, DateTimeOffset At)> _runs = new();
    private readonly ConcurrentDictionary<(int Agency, int Person), ConcurrentDictionary<RefusedDay, bool>> _refused = new();
    private readonly SemaphoreSlim _one = new(1, 1);

    /// <summary>The caller's own search for that; null where there is none.</summary>
    public MakeUpRun? Find(Caller caller, MakeUpAsk ask) => Find(caller) is { } run && run.Ask == ask ? run : null;

    /// <summary>The caller's own search, whatever for.</summary>
    public MakeUpRun? Find(Caller caller) => _runs.TryGetValue(Key(caller), out var kept) ? kept.Run : null;

    /// <summary>Ends the caller's own search, and forgets what it found.</summary>
    public void Forget(Caller caller)
    {
        if (_runs.TryRemove(Key(caller), out var kept))
            kept.Run.Stop();
    }

    /// <summary>The visits that the caller does not want.</summary>
    public IReadOnlyCollection<RefusedDay> Refused(Caller caller) => _refused.TryGetValue(Key(caller), out var days) ? [.. days.Keys] : [];

    public void Refuse(Caller caller, RefusedDay day) => _refused.GetOrAdd(Key(caller), _ => new()).TryAdd(day, true);

    /// <summary>Wants them all again.</summary>
    public void ForgetRefused(Caller caller) => _refused.TryRemove(Key(caller), out _);

    /// <summary>Begins a search; one that the caller began before ends.</summary>
    public void Start(MakeUpRun run)
    {
        var now = clock.GetUtcNow();
        foreach (var (key, (old, at)) in _runs)
        {
            if (now - at > Kept && old.IsOver)
                _runs.TryRemove(key, out _);
        }
        Find(run.Caller)?.Stop();
        _runs[Key(run.Caller)] = (run, now);
        _ = Task.Run(() => RunAsync(run, lifetime.ApplicationStopping));
    }

    private async Task RunAsync(MakeUpRun run, CancellationToken stop)
    {
        try
        {
            await _one.WaitAsync(stop);
            try
            {
                await run.SearchAsync(Effort, stop);
            }
            finally
            {
                _one.Release();
            }
        }
        catch (Exception fault)
        {
            if (!stop.IsCancellationRequested)
                log.LogError(fault, "A search for make-up visits failed");
            run.Fail();
        }
    }

    private static (int, int) Key(Caller caller) => (caller.AgencyId, caller.PersonId);

    public void Dispose() => _one.Dispose();
}
