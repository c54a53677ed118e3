using TeamCircle.Data.Account;
using TeamCircle.Data.Jobs;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Jobs;

/// <summary>Ends once a night, from three o'clock, what has outlived its time: sign-ins, links, and what old devices may hold.</summary>
internal sealed class ExpiryJob(IServiceScopeFactory scopes, TimeProvider clock, ILogger<ExpiryJob> log) : NightlyJob(Job.Expiry, 3, scopes, clock, log)
{
    protected override async Task<string> NightAsync(IServiceProvider services, JobAgency agency, CancellationToken stop)
    {
        var done = await services.GetRequiredService<ExpireAccess>().RunAsync(agency.Id, stop);
        return $"{Say.Count(done.SignIns, "sign-in")} ended, {Say.Count(done.Links, "link")} emptied, {Say.Count(done.Devices, "device")} let go.";
    }
}
