using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Mail;
using TeamCircle.Data.Account;

namespace TeamCircle.Data.Mail;

/// <summary>Adds mails to the outbox, inside the transaction of what causes them: they go out only if that is saved.</summary>
public static class QueueMail
{
    /// <summary>One mail for each member of a learner's family, about the caller's learner. One of the kind that still waits is enough, and
    /// where the learner is quiet none is added. Whether a person may get it is asked again when it is sent.</summary>
    /// <param name="db">Inside the transaction of the cause.</param>
    /// <param name="learner">In the reach of the transaction's scope.</param>
    /// <param name="kind">One that is for families.</param>
    /// <exception cref="ArgumentOutOfRangeException">Any other kind.</exception>
    public static Task ForFamilyAsync(PortalDb db, int learner, MailKind kind, CancellationToken stop = default) =>
        MailKinds.IsForFamily(kind)
            ? db.Database.ExecuteSqlAsync($"select portal.queue_for_family({learner}, {kind.ToString()})", stop)
            : throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a mail for a family.");

    /// <summary>The mail of a link. Accounts lie behind a wall of their own, whose role may add these rows to the outbox and nothing else.</summary>
    /// <param name="db">Inside the transaction that makes the link.</param>
    /// <param name="secret">Its tail, protected.</param>
    internal static Task<int> LinkAsync(AccountDb db, int agency, int person, InvitationKind kind, string secret, Instant now, CancellationToken stop)
    {
        var mail = kind switch
        {
            InvitationKind.Join => MailKind.Invitation,
            InvitationKind.NewPassword => MailKind.NewPassword,
            _ => MailKind.NewEmail,
        };
        return AddAsync(db, agency, person, mail, secret, now, stop);
    }

    /// <summary>The mail that tells somebody of a change to how they sign in. It goes to the address that is given, not to the one that stands
    /// when it is sent: that may be the change.</summary>
    /// <param name="db">Inside the transaction of the change.</param>
    /// <param name="address">The address, protected.</param>
    internal static Task<int> NoticeAsync(AccountDb db, int agency, int person, string address, Instant now, CancellationToken stop) =>
        AddAsync(db, agency, person, MailKind.SignInChanged, address, now, stop);

    private static Task<int> AddAsync(AccountDb db, int agency, int person, MailKind kind, string secret, Instant now, CancellationToken stop) =>
        db.Database.ExecuteSqlAsync($"""
            insert into portal.outbox (agency_id, id, person_id, kind, not_before, state, tries, secret)
            values ({agency}, {Guid.CreateVersion7()}, {person}, {kind.ToString()}, {now}, 'Queued', 0, {secret})
            """, stop);

    /// <summary>A digest for one hour of one person, once.</summary>
    /// <returns>False where it was queued before.</returns>
    internal static async Task<bool> DigestAsync(PortalDb db, OutboxRow mail, CancellationToken stop) => await db.Database.ExecuteSqlAsync($"""
        insert into portal.outbox (agency_id, id, person_id, kind, slot, not_before, state, tries, ended_at, answer)
        values ({mail.AgencyId}, {mail.Id}, {mail.PersonId}, {mail.Kind.ToString()}, {mail.Slot}, {mail.NotBefore}, {mail.State.ToString()}, 0, {mail.EndedAt}, {mail.Answer})
        on conflict do nothing
        """, stop) == 1;
}
