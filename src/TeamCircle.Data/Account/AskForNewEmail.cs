using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Data.Mail;

namespace TeamCircle.Data.Account;

/// <summary>Sends a link to the address with which somebody wants to sign in from now on; nothing changes before it is opened there.</summary>
public sealed class AskForNewEmail(AccountDb db, MailSecrets secrets, TimeProvider clock)
{
    public static readonly Duration Lasts = Duration.FromHours(24);

    public sealed record Input
    {
        [Required(ErrorMessage = "Enter the new address."), EmailAddress(ErrorMessage = "That is no e-mail address: it needs one @ with something on both sides."), StringLength(254)]
        public string Email { get; init; } = "";
    }

    /// <summary>One answer also where somebody else has that address: then no link goes out.</summary>
    public sealed record Done(string Email);

    public async Task<Outcome<Done>> RunAsync(long account, Input input, Place place, CancellationToken stop)
    {
        var (email, now) = (input.Email.Trim(), Instant.FromDateTimeOffset(clock.GetUtcNow()));
        var at = await db.Memberships.Where(m => m.AccountId == account).OrderBy(m => m.Since).ThenBy(m => m.AgencyId).FirstOrDefaultAsync(stop);
        if (at is null)
            return Outcome<Done>.Refused("Email", "No agency has you on its list, so no mail can go out.");
        var normal = email.ToUpperInvariant();
        var isTaken = await db.Users.AnyAsync(u => u.NormalizedEmail == normal, stop);
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await db.Invitations.Where(i => i.AccountId == account && i.Kind == InvitationKind.NewEmail && i.UsedAt == null && i.EndsAt > now)
            .ExecuteUpdateAsync(set => set.SetProperty(i => i.EndsAt, now), stop);
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.EmailAsked, Address = place.Address });
        if (!isTaken)
            await OfferAsync(at, account, email, now, stop);
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(email));
    }

    private async Task OfferAsync(MembershipRow at, long account, string email, Instant now, CancellationToken stop)
    {
        var secret = Secret.Make();
        db.Invitations.Add(new InvitationRow
        {
            Kind = InvitationKind.NewEmail,
            AgencyId = at.AgencyId,
            PersonId = at.PersonId,
            AccountId = account,
            Email = email,
            TokenHash = secret.Hash,
            MadeAt = now,
            EndsAt = now + Lasts,
        });
        await QueueMail.LinkAsync(db, at.AgencyId, at.PersonId, InvitationKind.NewEmail, secrets.Keep(secret.Text), now, stop);
    }
}
