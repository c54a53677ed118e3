using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Mail;

/// <summary>What is to become of a mail at this moment: it goes out, it waits, or it never goes.</summary>
/// <param name="Stopped">Why it never goes; null otherwise.</param>
/// <param name="NotBefore">Until when it waits; null otherwise.</param>
internal sealed record WrittenMail(ReadyMail? Mail, string? Stopped = null, Instant? NotBefore = null);

/// <summary>Writes a mail when it is sent, as things stand then: to whom it may still go, in which words, with which counts.</summary>
public sealed class WriteMail(ReadCaller readCaller, ReadDigest digests, ReadLink links)
{
    /// <param name="db">The transaction in which it is sent, under the lock that quiet waits for.</param>
    /// <param name="key">The tail of the link in it, or of the address that unsubscribes.</param>
    internal async Task<WrittenMail> RunAsync(PortalDb db, OutboxRow row, string key, Instant now, CancellationToken stop)
    {
        var to = await (
            from p in db.People
            join a in db.Agencies on p.AgencyId equals a.Id
            where p.AgencyId == row.AgencyId && p.Id == row.PersonId
            select new Recipient(p.Email, p.EndedAt != null, a.Name, a.TimeZone)).SingleAsync(stop);
        if (row.Kind is MailKind.SignInChanged)
            return new(new(row.MessageId, key, to.Agency, MailTexts.SignInChanged(to.Agency), null)); // the key is the address; also who leaves is told
        if (to.HasEnded)
            return Stop("the person is not on the list any more");
        if (MailKinds.IsLink(row.Kind))
            return await LinkAsync(row, to, key, stop);
        var choice = await db.MailChoices.AsNoTracking().SingleOrDefaultAsync(c => c.AgencyId == row.AgencyId && c.PersonId == row.PersonId, stop) ?? new();
        if (!choice.Wants(row.Kind))
            return Stop("the person does not want these mails");
        if (row.LearnerId is { } learner && await QuietLearners.HasAsync(db, row.AgencyId, learner, stop))
            return Stop("the learner is quiet");
        if (await readCaller.RunAsync(row.AgencyId, row.PersonId, stop) is not { } caller || !IsFor(row, caller))
            return Stop("the person's role or relation has ended");
        var hours = choice.Hours(to.Zone);
        if (row.Slot is { } slot && hours.InstantOf(slot) + MailKinds.Latest(row.Kind) < now)
            return Stop("it came too late to be of use");
        if (hours.NotBefore(now) is var until && until > now)
            return new(null, NotBefore: until);
        return await TextAsync(row, caller, choice.Language, stop) is { } text
            ? new(new(row.MessageId, to.Email, to.Agency, text, key))
            : Stop("nothing waited");
    }

    private sealed record Recipient(string Email, bool HasEnded, string Agency, string Zone);

    private static WrittenMail Stop(string why) => new(null, $"Stopped: {why}.");

    private async Task<WrittenMail> LinkAsync(OutboxRow row, Recipient to, string key, CancellationToken stop)
    {
        var kind = row.Kind switch
        {
            MailKind.Invitation => InvitationKind.Join,
            MailKind.NewPassword => InvitationKind.NewPassword,
            _ => InvitationKind.NewEmail,
        };
        if (await links.RunAsync(kind, key, stop) is not { } link)
            return Stop("the link was used, or has ended");
        var path = Link.PathOf(kind, key);
        var text = kind switch
        {
            InvitationKind.Join => MailTexts.Invitation(to.Agency, path),
            InvitationKind.NewPassword => MailTexts.NewPassword(to.Agency, path),
            _ => MailTexts.NewEmail(to.Agency, path),
        };
        return new(new(row.MessageId, kind is InvitationKind.NewEmail ? link.Email : to.Email, to.Agency, text, null));
    }

    private static bool IsFor(OutboxRow row, Caller caller) =>
        MailKinds.For(caller.Roles).Contains(row.Kind) && (row.LearnerId is not { } learner || caller.IsFamilyOf(learner));

    /// <summary>Null where there is nothing to say.</summary>
    private async Task<MailText?> TextAsync(OutboxRow row, Caller caller, MailLanguage language, CancellationToken stop)
    {
        if (row.Kind is MailKind.NewSummary)
            return MailTexts.NewSummary(language);
        if (row.Kind is MailKind.VisitChanged)
            return MailTexts.VisitChanged(language);
        var (own, decisions) = await digests.RunAsync(caller, stop);
        if (row.Kind is MailKind.VisitsAndMinutes)
            return own.IsEmpty ? null : MailTexts.VisitsAndMinutes(own);
        if (row.Kind is MailKind.Reminder)
            return own.Closing + decisions.RequestsSoon == 0 ? null : MailTexts.Reminder(own, decisions);
        return decisions.IsEmpty ? null : MailTexts.WaitingForYourDecision(decisions);
    }
}
