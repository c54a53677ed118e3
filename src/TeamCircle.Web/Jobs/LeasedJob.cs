using NodaTime;
using TeamCircle.Data;
using TeamCircle.Data.Jobs;

namespace TeamCircle.Web.Jobs;

/// <summary>A job that one portal does at a time, agency by agency, and that leaves a record of what came of it.</summary>
internal abstract partial class LeasedJob(Job job, TimeSpan every, IServiceScopeFactory scopes, TimeProvider clock, ILogger log) : TimedJob(every, clock)
{
    private readonly HashSet<int> _failing = [];
    private string? _said;

    protected Instant Now => Instant.FromDateTimeOffset(Clock.GetUtcNow());

    protected override async Task RunOnceAsync(CancellationToken stop)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            await using var lease = await scope.ServiceProvider.GetRequiredService<JobLease>().TryTakeAsync(job, stop);
            if (lease is null)
                return; // another portal is at it
            foreach (var agency in await scope.ServiceProvider.GetRequiredService<ReadAgencies>().RunAsync(stop))
            {
                await lease.CheckAsync(stop);
                await RunAsync(agency, stop);
            }
            _said = null;
        }
        catch (Exception wrong) when (wrong is not OperationCanceledException)
        {
            if (_said != wrong.GetType().Name)
                LogFault(wrong, job);
            _said = wrong.GetType().Name; // once is enough until it is over or something else takes its place
        }
    }

    /// <summary>One turn for one agency.</summary>
    /// <returns>What came of it, in words for the administrator; null where there was nothing to do.</returns>
    protected abstract Task<string?> WorkAsync(IServiceProvider services, JobAgency agency, CancellationToken stop);

    // A scope for each agency: what went wrong in one leaves nothing behind for the next.
    private async Task RunAsync(JobAgency agency, CancellationToken stop)
    {
        await using var scope = scopes.CreateAsyncScope();
        var note = scope.ServiceProvider.GetRequiredService<NoteRun>();
        var run = new JobRunRow { AgencyId = agency.Id, Job = job, StartedAt = Now, Result = "" };
        try
        {
            if (await WorkAsync(scope.ServiceProvider, agency, stop) is not { } result)
                return;
            run.Result = result;
            _failing.Remove(agency.Id);
        }
        catch (Exception wrong) when (wrong is not OperationCanceledException)
        {
            if (!_failing.Add(agency.Id))
                return;
            (run.Failed, run.Result) = (true, Explain(wrong));
        }
        await note.RunAsync(run, stop);
    }

    private string Explain(Exception wrong)
    {
        if (wrong is StartupFailure)
            LogRefused(wrong.Message);
        else
            LogFault(wrong, job);
        return wrong is StartupFailure ? wrong.Message : "It could not be finished. The next turn tries again; the log says where it broke off.";
    }

    [LoggerMessage(LogLevel.Error, "{Why}")]
    private partial void LogRefused(string why);

    [LoggerMessage(LogLevel.Error, "{Job} could not be finished this time")]
    private partial void LogFault(Exception fault, Job job);
}
