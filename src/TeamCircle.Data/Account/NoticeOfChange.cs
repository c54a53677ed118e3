using Microsoft.EntityFrameworkCore;
using TeamCircle.Data.Mail;

namespace TeamCircle.Data.Account;

/// <summary>Tells the owner of an account by mail that something about signing in has changed, at the address which it has at that moment.</summary>
public sealed class NoticeOfChange(MailSecrets secrets)
{
    /// <summary>Inside the transaction of the change; nobody can refuse this mail. It goes out in the name of the agency that the account joined first.</summary>
    /// <param name="db">Inside the transaction; what the account was before is still its address there, or already the new one, as the caller chooses.</param>
    internal async Task QueueAsync(AccountDb db, long account, Instant now, CancellationToken stop)
    {
        var to = await db.Memberships.Where(m => m.AccountId == account).OrderBy(m => m.Since).ThenBy(m => m.AgencyId)
            .Join(db.Users, m => m.AccountId, u => u.Id, (m, u) => new { m.AgencyId, m.PersonId, u.Email }).FirstOrDefaultAsync(stop);
        if (to?.Email is not null)
            await QueueMail.NoticeAsync(db, to.AgencyId, to.PersonId, secrets.Keep(to.Email), now, stop);
    }
}
