using TeamCircle.Data;
using TeamCircle.Data.History;

namespace TeamCircle.Web.Jobs;

/// <summary>Seals the trail of changes every five seconds. Several portals may do so on one database: each block is made once.</summary>
internal sealed partial class SealingJob(IServiceScopeFactory scopes, TimeProvider clock, ILogger<SealingJob> log) : TimedJob(TimeSpan.FromSeconds(5), clock)
{
    private string? _said;

    // Whatever goes wrong, the portal goes on and the next turn seals what this one left: nothing is lost by waiting.
    protected override async Task RunOnceAsync(CancellationToken stop)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var seal = scope.ServiceProvider.GetRequiredService<SealChanges>();
            foreach (var agency in await seal.AgenciesAsync(stop))
                await seal.RunAsync(agency, stop);
            _said = null;
        }
        catch (Exception wrong) when (wrong is not OperationCanceledException)
        {
            SayOnce(wrong);
        }
    }

    // Once is enough until it is over or something else takes its place.
    private void SayOnce(Exception wrong)
    {
        var said = wrong is StartupFailure ? wrong.Message : wrong.GetType().Name;
        if (said == _said)
            return;
        _said = said;
        if (wrong is StartupFailure)
            LogRefused(said);
        else
            LogFault(wrong);
    }

    [LoggerMessage(LogLevel.Error, "{Why}")]
    private partial void LogRefused(string why);

    [LoggerMessage(LogLevel.Error, "The trail of changes could not be sealed this time")]
    private partial void LogFault(Exception fault);
}
