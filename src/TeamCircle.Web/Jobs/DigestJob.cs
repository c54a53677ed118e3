using TeamCircle.Data.Jobs;
using TeamCircle.Data.Mail;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Jobs;

/// <summary>Queues digests at the hours that people chose.</summary>
internal sealed class DigestJob(IServiceScopeFactory scopes, TimeProvider clock, ILogger<DigestJob> log)
    : LeasedJob(Job.Digests, TimeSpan.FromMinutes(1), scopes, clock, log)
{
    protected override async Task<string?> WorkAsync(IServiceProvider services, JobAgency agency, CancellationToken stop)
    {
        var done = await services.GetRequiredService<QueueDigests>().RunAsync(agency.Id, stop);
        return done.Queued + done.Skipped == 0 ? null
            : $"{Say.Number(done.Queued)} queued{(done.Skipped == 0 ? "" : $", {done.Skipped} skipped: missed for too long")}.";
    }
}
