using TeamCircle.Data.Jobs;
using TeamCircle.Data.Retention;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Jobs;

/// <summary>Proposes once a night, from four o'clock, what the agency's rules say is due to be destroyed. It destroys nothing.</summary>
internal sealed class RetentionJob(IServiceScopeFactory scopes, TimeProvider clock, ILogger<RetentionJob> log) : NightlyJob(Job.Retention, 4, scopes, clock, log)
{
    protected override async Task<string> NightAsync(IServiceProvider services, JobAgency agency, CancellationToken stop) =>
        $"{Say.Count(await services.GetRequiredService<ProposeDestructions>().RunAsync(agency.Id, stop), "destruction")} proposed.";
}
