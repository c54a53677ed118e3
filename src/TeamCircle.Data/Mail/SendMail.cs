using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Mail;
using TeamCircle.Data.Account;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Mail;

/// <summary>
/// Sends what is due, mail by mail. A try is on record before it begins, and its end after the server has answered: a portal that ends in
/// between sends that mail again, under the same Message-ID, so that none is lost and at most one is doubled each time.
/// </summary>
public sealed class SendMail(Portal portal, WriteMail write, MailSecrets secrets, TimeProvider clock)
{
    /// <summary>What became of the mails that were due.</summary>
    /// <param name="Later">Not accepted, to be tried again.</param>
    public sealed record Done(int Sent, int Stopped, int Later, int Failed)
    {
        public bool IsNothing => Sent + Stopped + Later + Failed == 0;
    }

    /// <param name="firstPause">Between the first try of a mail and its second; later ones grow by <see cref="MailTries"/>. Longer than a
    /// delivery can take.</param>
    /// <param name="deliver">Gives a mail to the mail server and says what it made of it.</param>
    public async Task<Done> RunAsync(int agency, Duration firstPause, Func<ReadyMail, CancellationToken, Task<MailAnswer>> deliver, CancellationToken stop = default)
    {
        await DateAsync(agency, stop);
        var states = new List<MailState>();
        while (await ClaimAsync(agency, firstPause, stop) is { } claimed)
            states.Add(await SendAsync(claimed, deliver, stop));
        int Count(MailState state) => states.Count(s => s == state);
        return new(Count(MailState.Sent), Count(MailState.Stopped), Count(MailState.Sending), Count(MailState.Failed));
    }

    private Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    /// <summary>Sets when mails go that were queued since the last turn: changes of visits wait for others, and all for the end of the
    /// person's quiet hours. Until then a further cause adds no second mail.</summary>
    private async Task DateAsync(int agency, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(Scope.Job(agency, 0, "mail"), IsolationLevel.ReadCommitted, null, stop);
        var undated = await (
            from o in work.Db.Outbox
            join a in work.Db.Agencies on o.AgencyId equals a.Id
            from c in work.Db.MailChoices.Where(c => c.AgencyId == o.AgencyId && c.PersonId == o.PersonId).DefaultIfEmpty()
            where o.AgencyId == agency && o.State == MailState.Queued && o.NotBefore == null
            select new { Mail = o, Choice = c, a.TimeZone }).ToListAsync(stop);
        foreach (var one in undated)
            one.Mail.NotBefore = (one.Choice ?? new()).Hours(one.TimeZone).NotBefore(one.Mail.Kind is MailKind.VisitChanged ? Now + MailTries.Gathers : Now);
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }

    /// <summary>Takes the mail that is due longest and notes the try; null where none is.</summary>
    private async Task<OutboxRow?> ClaimAsync(int agency, Duration firstPause, CancellationToken stop)
    {
        var now = Now;
        await using var work = await portal.OpenAsync(Scope.Job(agency, 0, "mail"), IsolationLevel.ReadCommitted, null, stop);
        var row = await work.Db.Locked<OutboxRow>(
            $"agency_id = {agency} and state in ('Queued', 'Sending') and not_before <= {now} order by not_before, id limit 1", orSkipped: true).SingleOrDefaultAsync(stop);
        if (row is null)
            return null;
        (row.State, row.Tries) = (MailState.Sending, row.Tries + 1);
        row.NotBefore = now + MailTries.Pause(row.Tries, firstPause);
        if (row.Secret is null && !MailKinds.IsLink(row.Kind))
        {
            var token = Secret.Make();
            (row.Secret, row.TokenHash) = (secrets.Keep(token.Text), token.Hash);
        }
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return row;
    }

    private async Task<MailState> SendAsync(OutboxRow claimed, Func<ReadyMail, CancellationToken, Task<MailAnswer>> deliver, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(Scope.Job(claimed.AgencyId, 0, "mail"), IsolationLevel.ReadCommitted, null, stop);
        await QuietLock.SendAsync(work.Db, claimed.AgencyId, stop);
        var row = await work.Db.Outbox.SingleAsync(o => o.AgencyId == claimed.AgencyId && o.Id == claimed.Id, stop);
        if (row.State != MailState.Sending || row.Tries != claimed.Tries)
            return row.State; // stopped between the claim and this
        var key = row.Secret is null ? null : secrets.Open(row.Secret);
        var written = key is null ? null : await write.RunAsync(work.Db, row, key, Now, stop);
        if (written is null)
            End(row, MailState.Failed, "The link in it can't be read any more: make another.");
        else if (written.Stopped is { } why)
            End(row, MailState.Stopped, why);
        else if (written.NotBefore is { } until)
            (row.State, row.NotBefore) = (MailState.Queued, until);
        else
            Take(row, await deliver(written.Mail!, stop));
        // What the server has accepted is noted, whoever stops waiting for it.
        await work.Db.SaveChangesAsync(CancellationToken.None);
        await work.CommitAsync(CancellationToken.None);
        return row.State;
    }

    private void Take(OutboxRow row, MailAnswer answer)
    {
        if (answer.Outcome is MailOutcome.Accepted)
            End(row, MailState.Sent, answer.Words);
        else if (answer.Outcome is MailOutcome.Refused || row.Tries >= MailTries.Most)
            End(row, MailState.Failed, answer.Words);
        else
            row.Answer = answer.Words;
    }

    private void End(OutboxRow row, MailState state, string answer) =>
        (row.State, row.EndedAt, row.Secret, row.Answer) = (state, Now, null, answer);
}
