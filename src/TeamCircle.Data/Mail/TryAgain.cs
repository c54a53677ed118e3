using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Mail;

/// <summary>Queues what failed once more, as new from the next turn on. A link's mail is not among it: its tail is gone, so another link is made.</summary>
public sealed class TryAgain(Portal portal, TimeProvider clock)
{
    public sealed record Input;

    public sealed record Done(int Mails);

    public async Task<Outcome<Done>> RunAsync(Caller caller, Guid operation, CancellationToken stop = default)
    {
        if (!caller.Is(Role.Administrator))
            return Outcome<Done>.Refused(Problem.NotFound);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        return await portal.WriteAsync(Scope.WholeAgency(caller, "mail"), Operation.Of(operation, nameof(TryAgain), new Input()), async db =>
        {
            var failed = await db.Outbox.Where(o => o.AgencyId == caller.AgencyId && o.State == MailState.Failed
                && o.Kind != MailKind.Invitation && o.Kind != MailKind.NewPassword).ToListAsync(stop);
            foreach (var mail in failed)
                (mail.State, mail.NotBefore, mail.EndedAt, mail.Tries) = (MailState.Queued, now, null, 1);
            return Outcome<Done>.Of(new(failed.Count));
        }, stop);
    }
}
