using NodaTime;
using TeamCircle.Data.Jobs;
using TeamCircle.Data.Mail;
using TeamCircle.Web.Mail;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Jobs;

/// <summary>Sends the mails that are due, one portal at a time.</summary>
internal sealed class SendingJob(IServiceScopeFactory scopes, TimeProvider clock, MailSettings settings, ILogger<SendingJob> log)
    : LeasedJob(Job.Sending, TimeSpan.FromSeconds(settings.EverySeconds), scopes, clock, log)
{
    protected override async Task<string?> WorkAsync(IServiceProvider services, JobAgency agency, CancellationToken stop)
    {
        var transport = services.GetRequiredService<IMailTransport>();
        var done = await services.GetRequiredService<SendMail>().RunAsync(agency.Id, Duration.FromSeconds(settings.FirstPauseSeconds), transport.SendAsync, stop);
        return done.IsNothing ? null : $"{Say.Count(done.Sent, "mail")} sent, {done.Stopped} stopped, {done.Later} to try again, {done.Failed} failed.";
    }
}
