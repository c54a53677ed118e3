using TeamCircle.Data.Jobs;

namespace TeamCircle.Web.Jobs;

/// <summary>A job that is done once a night, from an hour on in each agency's own zone. One that was missed is caught up within the hour, once.</summary>
internal abstract class NightlyJob(Job job, int hour, IServiceScopeFactory scopes, TimeProvider clock, ILogger log)
    : LeasedJob(job, TimeSpan.FromHours(1), scopes, clock, log)
{
    private readonly Job _job = job;

    protected sealed override async Task<string?> WorkAsync(IServiceProvider services, JobAgency agency, CancellationToken stop)
    {
        var now = Now.InZone(agency.Zone).LocalDateTime;
        if (now.Hour < hour || await services.GetRequiredService<ReadRuns>().WasDoneAsync(agency.Id, _job, now.Date, agency.Zone, stop))
            return null;
        return await NightAsync(services, agency, stop);
    }

    /// <returns>What came of it, in words for the administrator.</returns>
    protected abstract Task<string> NightAsync(IServiceProvider services, JobAgency agency, CancellationToken stop);
}
