namespace TeamCircle.Benchmarks;

/// <summary>How much memory a piece of work takes at its peak: the process's working set and the collector's heap, looked at every
/// 10 ms, each against what it was before.</summary>
internal sealed class Peak : IDisposable
{
    private static readonly TimeSpan Pace = TimeSpan.FromMilliseconds(10);

    private readonly long _heapBefore = GC.GetTotalMemory(forceFullCollection: true);
    private readonly long _setBefore = Environment.WorkingSet;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _looking;
    private long _heap, _set;

    public Peak() => _looking = Task.Factory.StartNew(Look, TaskCreationOptions.LongRunning);

    /// <summary>Working set and heap in megabytes; after <see cref="Dispose"/>.</summary>
    public override string ToString() => $"working set {(_set - _setBefore) / 1_048_576} MB more, heap {(_heap - _heapBefore) / 1_048_576} MB more";

    public void Dispose()
    {
        _stop.Cancel();
        _looking.Wait();
        _stop.Dispose();
    }

    private void Look()
    {
        do
        {
            _heap = Math.Max(_heap, GC.GetTotalMemory(forceFullCollection: false));
            _set = Math.Max(_set, Environment.WorkingSet);
        }
        while (!_stop.Token.WaitHandle.WaitOne(Pace));
    }
}
