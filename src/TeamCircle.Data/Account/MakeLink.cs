using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Mail;

namespace TeamCircle.Data.Account;

/// <summary>A link to hand over, shown once.</summary>
/// <param name="Key">The secret tail of the address: 32 random bytes; we keep their hash.</param>
public sealed record Link(InvitationKind Kind, string Key, Instant EndsAt)
{
    /// <summary>The address without the portal's own part.</summary>
    public string Path => PathOf(Kind, Key);

    internal static string PathOf(InvitationKind kind, string key) => kind switch
    {
        InvitationKind.Join => $"/join/{key}",
        InvitationKind.NewPassword => $"/new-password/{key}",
        _ => $"/new-email/{key}",
    };
}

/// <summary>
/// Makes the link by which a person joins the agency, or sets a new password where they have joined. An earlier link of
/// theirs ends. It also goes out by mail.
/// </summary>
public sealed class MakeLink(Portal portal, AccountDb db, MailSecrets secrets, TimeProvider clock)
{
    public static readonly Duration Lasts = Duration.FromHours(72);

    /// <remarks>
    /// A new password opens the account in every agency: where there is another one, no administrator may make the link,
    /// or they would reach into an agency that is not theirs; the portal's operator can.
    /// </remarks>
    public async Task<Outcome<Link>> RunAsync(Caller by, int person, CancellationToken stop)
    {
        var isOperator = by.Is(Role.Terminal);
        if (!isOperator && !by.Is(Role.Administrator))
            return Outcome<Link>.Refused(Problem.NotFound);
        var scope = Scope.WholeAgency(by, "people");
        var email = await portal.ReadAsync(scope, d => d.People
            .Where(p => p.AgencyId == by.AgencyId && p.Id == person && p.EndedAt == null).Select(p => p.Email).SingleOrDefaultAsync(stop), stop);
        if (email is null)
            return Outcome<Link>.Refused(Problem.NotFound);
        var account = await db.Memberships.Where(m => m.AgencyId == by.AgencyId && m.PersonId == person).Select(m => (long?)m.AccountId).SingleOrDefaultAsync(stop);
        if (!isOperator && account is not null && await db.Memberships.AnyAsync(m => m.AccountId == account && m.AgencyId != by.AgencyId, stop))
            return Outcome<Link>.Refused("", "This person's account also works for another agency, so only the operator of the portal can make this link (TeamCircle.Cli new-password).");
        return Outcome<Link>.Of(await MakeAsync(by, person, email, account, stop));
    }

    private async Task<Link> MakeAsync(Caller by, int person, string email, long? account, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var secret = Secret.Make();
        var kind = account is null ? InvitationKind.Join : InvitationKind.NewPassword;
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await db.Invitations.Where(i => i.AgencyId == by.AgencyId && i.PersonId == person && i.UsedAt == null && i.EndsAt > now)
            .ExecuteUpdateAsync(set => set.SetProperty(i => i.EndsAt, now), stop);
        db.Invitations.Add(new InvitationRow
        {
            Kind = kind,
            AgencyId = by.AgencyId,
            PersonId = person,
            AccountId = account,
            Email = email,
            TokenHash = secret.Hash,
            MadeAt = now,
            EndsAt = now + Lasts,
        });
        db.Events.Add(new AccountEventRow
        {
            AccountId = account,
            At = now,
            Kind = AccountEvent.LinkMade,
            Detail = $"{Words.Of(kind)} for person {person} of agency {by.AgencyId}, by person {by.PersonId}",
        });
        await db.SaveChangesAsync(stop);
        await QueueMail.LinkAsync(db, by.AgencyId, person, kind, secrets.Keep(secret.Text), now, stop);
        await transaction.CommitAsync(stop);
        return new Link(kind, secret.Text, now + Lasts);
    }
}
