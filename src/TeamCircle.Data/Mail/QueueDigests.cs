using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Mail;

/// <summary>
/// Queues the digests whose hour has come, each once, however many portals do so. One that was missed by more than twelve hours is skipped
/// and on record as such; what it would have said is counted in the next one.
/// </summary>
public sealed class QueueDigests(Portal portal, TimeProvider clock)
{
    public sealed record Done(int Queued, int Skipped);

    public async Task<Done> RunAsync(int agency, CancellationToken stop = default)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var work = await portal.OpenAsync(Scope.Job(agency, 0, "digests"), IsolationLevel.ReadCommitted, null, stop);
        var (queued, skipped) = (0, 0);
        foreach (var (person, hours, kinds) in await PeopleAsync(work.Db, agency, stop))
        {
            if (hours.LastSlot(now) is not { } slot)
                continue;
            foreach (var kind in kinds)
            {
                var mail = Mail(agency, person, kind, slot, hours.InstantOf(slot), now);
                if (!await QueueMail.DigestAsync(work.Db, mail, stop))
                    continue;
                (queued, skipped) = mail.EndedAt is null ? (queued + 1, skipped) : (queued, skipped + 1);
            }
        }
        await work.CommitAsync(stop);
        return new(queued, skipped);
    }

    private static OutboxRow Mail(int agency, int person, MailKind kind, LocalDateTime slot, Instant due, Instant now)
    {
        var late = due + MailHours.Latest < now;
        return new()
        {
            AgencyId = agency,
            Id = Guid.CreateVersion7(),
            PersonId = person,
            Kind = kind,
            Slot = slot,
            NotBefore = due,
            State = late ? MailState.Stopped : MailState.Queued,
            EndedAt = late ? now : null,
            Answer = late ? "Skipped: it was missed by more than 12 hours." : null,
        };
    }

    /// <summary>Staff who want digests, with the kinds that their roles of today give.</summary>
    private async Task<List<(int Person, MailHours Hours, IEnumerable<MailKind> Kinds)>> PeopleAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var zone = await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop);
        var today = AgencyClock.Today(clock, zone);
        var roles = await (
            from r in db.PersonRoles
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && p.EndedAt == null && (r.Role == Role.Provider || r.Role == Role.CaseManager)
                && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today)
            select new { r.PersonId, r.Role }).ToListAsync(stop);
        var choices = await db.MailChoices.AsNoTracking().Where(c => c.AgencyId == agency).ToDictionaryAsync(c => c.PersonId, stop);
        return [.. roles.GroupBy(r => r.PersonId, r => r.Role).Select(person =>
        {
            var choice = choices.GetValueOrDefault(person.Key) ?? new();
            return (person.Key, choice.Hours(zone), MailKinds.For(person.ToHashSet()).Where(choice.Wants));
        })];
    }
}
