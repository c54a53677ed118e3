using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Mail;

/// <summary>Sends a test to oneself, past the outbox, so that the mail server's answer can be shown at once. It changes nothing.</summary>
public sealed class SendTest(Portal portal)
{
    public async Task<MailAnswer> RunAsync(Caller caller, Func<ReadyMail, CancellationToken, Task<MailAnswer>> deliver, CancellationToken stop = default)
    {
        var (to, agency) = await portal.ReadAsync(Scope.Of(caller), async db => (
            await db.People.Where(p => p.AgencyId == caller.AgencyId && p.Id == caller.PersonId).Select(p => p.Email).SingleAsync(stop),
            await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.Name).SingleAsync(stop)), stop);
        return await deliver(new(OutboxRow.MessageIdOf(Guid.CreateVersion7()), to, agency, MailTexts.Test(agency), null), stop);
    }
}
