namespace TeamCircle.Web.Jobs;

/// <summary>Does the same again and again until the portal ends; the first time after one interval.</summary>
internal abstract class TimedJob(TimeSpan every, TimeProvider clock) : BackgroundService
{
    protected TimeProvider Clock => clock;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(every, clock);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
                await RunOnceAsync(stoppingToken);
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // A start that fails ends its jobs without a stop; the host would print that as a fault beside the one line that matters.
        }
    }

    /// <summary>One turn. Whatever goes wrong in it, it says so and returns: the portal goes on, and the next turn comes.</summary>
    protected abstract Task RunOnceAsync(CancellationToken stop);
}
