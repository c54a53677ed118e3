using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Mail;

/// <summary>A person's choice of mails as it stands.</summary>
/// <param name="Email">Where they go.</param>
/// <param name="AgencyZone">The zone of who chose none.</param>
/// <param name="Version">0 where nothing was chosen yet.</param>
public sealed record MailChoices(string Email, string AgencyZone, MailChoiceRow Choice, int Version);

/// <summary>Reads one's own choice of mails.</summary>
public sealed class ReadChoices(Portal portal)
{
    public Task<MailChoices> RunAsync(Caller caller, CancellationToken stop = default) => portal.ReadAsync(Scope.Of(caller), async db =>
    {
        var zone = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
        var email = await db.People.Where(p => p.AgencyId == caller.AgencyId && p.Id == caller.PersonId).Select(p => p.Email).SingleAsync(stop);
        var row = await db.MailChoices.SingleOrDefaultAsync(c => c.AgencyId == caller.AgencyId && c.PersonId == caller.PersonId, stop);
        return new MailChoices(email, zone, row ?? new(), row?.Version ?? 0);
    }, stop);
}
