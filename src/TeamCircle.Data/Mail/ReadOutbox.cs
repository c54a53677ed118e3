using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Mail;

namespace TeamCircle.Data.Mail;

/// <summary>How an agency's mails stand.</summary>
/// <param name="Waiting">Queued, or in the middle of a try.</param>
/// <param name="LastSent">In the agency's zone; null where none was sent yet.</param>
/// <param name="LastAnswer">What the mail server said last to a mail that went or failed; null before the first.</param>
/// <param name="Ends">The latest that failed or were stopped.</param>
public sealed record OutboxPage(int Waiting, int Sent, int Stopped, int Failed, LocalDateTime? LastSent, string? LastAnswer, IReadOnlyList<EndedMail> Ends);

/// <summary>A mail that did not go: to whom, of which kind, why.</summary>
public sealed record EndedMail(Guid Id, string Person, MailKind Kind, MailState State, LocalDateTime At, int Tries, string? Answer);

/// <summary>Reads how mails go, for the administrator.</summary>
public sealed class ReadOutbox(Portal portal)
{
    private const int MostListed = 30;

    public Task<OutboxPage> RunAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)];
        var own = db.Outbox.Where(o => o.AgencyId == scope.AgencyId);
        var counts = await own.GroupBy(o => o.State).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Count, stop);
        int Count(MailState state) => counts.GetValueOrDefault(state);
        var last = await own.Where(o => o.State == MailState.Sent).OrderByDescending(o => o.EndedAt).Select(o => o.EndedAt).FirstOrDefaultAsync(stop);
        var answer = await own.Where(o => o.Answer != null && o.State != MailState.Stopped).OrderByDescending(o => o.EndedAt ?? o.NotBefore).Select(o => o.Answer).FirstOrDefaultAsync(stop);
        var ends = await (
            from o in own
            join p in db.People on new { o.AgencyId, Id = o.PersonId } equals new { p.AgencyId, p.Id }
            where o.State == MailState.Failed || o.State == MailState.Stopped
            orderby o.State, o.EndedAt descending
            select new { Mail = o, p.Name }).Take(MostListed).ToListAsync(stop);
        return new OutboxPage(
            Count(MailState.Queued) + Count(MailState.Sending), Count(MailState.Sent), Count(MailState.Stopped), Count(MailState.Failed),
            last?.InZone(zone).LocalDateTime, answer,
            [.. ends.Select(e => new EndedMail(e.Mail.Id, e.Name, e.Mail.Kind, e.Mail.State, e.Mail.EndedAt!.Value.InZone(zone).LocalDateTime, e.Mail.Tries, e.Mail.Answer))]);
    }, stop);
}
