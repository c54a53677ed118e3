using System.Collections.Concurrent;
using TeamCircle.Core.People;
using TeamCircle.Data.Import;

namespace TeamCircle.Web.Pages.Import;

/// <summary>
/// The imports that people have begun, one each. They run in the background, since a large folder takes longer than
/// anybody waits for a page; a portal that stops takes a running one back, and its files are to be brought again.
/// </summary>
public sealed class ImportRuns(IServiceScopeFactory scopes, IHostApplicationLifetime lifetime, TimeProvider clock, ILogger<ImportRuns> log)
{
    private static readonly TimeSpan Kept = TimeSpan.FromHours(2);

    /// <summary>Files lie in memory, so only so many at once.</summary>
    private const int Most = 8;

    private readonly ConcurrentDictionary<(int Agency, int Person), (ImportRun Run, DateTimeOffset At)> _runs = new();

    /// <summary>The caller's own import; null where there is none.</summary>
    public ImportRun? Find(Caller caller) => _runs.TryGetValue(Key(caller), out var kept) ? kept.Run : null;

    /// <summary>Keeps what somebody brought; it starts at once unless there is something to choose first.</summary>
    /// <returns>False where too many imports are going on.</returns>
    public bool Open(ImportRun run)
    {
        var now = clock.GetUtcNow();
        foreach (var (key, (old, at)) in _runs)
        {
            if (now - at > Kept && old.State != ImportState.Running)
                _runs.TryRemove(key, out _);
        }
        var own = Find(run.Caller);
        if (own is null ? _runs.Count >= Most : own.State == ImportState.Running)
            return own?.Operation == run.Operation; // the same form sent twice
        _runs[Key(run.Caller)] = (run, now);
        if (run.State == ImportState.Running)
            Start(run, null, goodRows: false);
        return true;
    }

    public void Start(ImportRun run, IReadOnlySet<string>? closures, bool goodRows)
    {
        if (run.Begin(closures))
            _ = Task.Run(() => RunAsync(run, goodRows, lifetime.ApplicationStopping));
    }

    /// <summary>Lets go of an import that does not run.</summary>
    public void Forget(Caller caller)
    {
        if (Find(caller) is { State: not ImportState.Running })
            _runs.TryRemove(Key(caller), out _);
    }

    private async Task RunAsync(ImportRun run, bool goodRows, CancellationToken stop)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var input = new ImportFolder.Input(run.Files, GoodRows: goodRows, Closures: run.Closures);
            run.End(await scope.ServiceProvider.GetRequiredService<ImportFolder>().RunAsync(run.Caller, Guid.CreateVersion7(), input, run, stop));
        }
        catch (Exception fault)
        {
            log.LogError(fault, "An import failed and was taken back");
            run.End(null);
        }
    }

    private static (int, int) Key(Caller caller) => (caller.AgencyId, caller.PersonId);
}
