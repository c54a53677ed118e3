using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Mail;

/// <summary>
/// Queues the digests and reminders whose hour has come, each once, however many portals do so. A digest that was missed by more than twelve
/// hours is skipped and on record as such; what it would have said is counted in the next one, and a reminder before the week closes is
/// caught up.
/// </summary>
public sealed class QueueDigests(Portal portal, TimeProvider clock)
{
    public sealed record Done(int Queued, int Skipped);

    /// <param name="Kinds">Those that their roles of today give and they want.</param>
    private sealed record Reader(int Person, MailHours Hours, IReadOnlyList<MailKind> Kinds);

    private readonly record struct Known(MailKind Kind, LocalDateTime Slot, bool IsSkipped);

    public async Task<Done> RunAsync(int agency, CancellationToken stop = default)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var work = await portal.OpenAsync(Scope.Job(agency, 0, "digests"), IsolationLevel.ReadCommitted, null, stop);
        var place = await work.Db.Agencies.Where(a => a.Id == agency).SingleAsync(stop);
        var known = await KnownAsync(work.Db, agency, now, stop);
        var (queued, skipped) = (0, 0);
        foreach (var reader in await ReadersAsync(work.Db, place, stop))
        {
            var had = known[reader.Person].ToList();
            foreach (var mail in reader.Kinds.Select(kind => Due(place, reader, kind, had, now)).OfType<OutboxRow>())
            {
                had.Add(new(mail.Kind, mail.Slot!.Value, mail.EndedAt is not null));
                if (await QueueMail.DigestAsync(work.Db, mail, stop))
                    (queued, skipped) = mail.EndedAt is null ? (queued + 1, skipped) : (queued, skipped + 1);
            }
        }
        await work.CommitAsync(stop);
        return new(queued, skipped);
    }

    /// <summary>Null where the hour that came last had its mail, or, for a reminder, where a digest has told them since its day.</summary>
    private static OutboxRow? Due(AgencyRow place, Reader reader, MailKind kind, List<Known> had, Instant now)
    {
        var isReminder = kind is MailKind.Reminder;
        var hours = isReminder ? reader.Hours.OnReminderDay(place.Weekdays, place.WeekStart) : reader.Hours;
        return hours.LastSlot(now) is not { } slot
            || had.Exists(h => (h.Kind == kind && h.Slot == slot) || (isReminder && h is { Kind: MailKind.VisitsAndMinutes, IsSkipped: false } && h.Slot.Date >= slot.Date))
            ? null : Mail(place.Id, reader.Person, kind, slot, hours.InstantOf(slot), now);
    }

    private static OutboxRow Mail(int agency, int person, MailKind kind, LocalDateTime slot, Instant due, Instant now)
    {
        var late = due + MailKinds.Latest(kind) < now;
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
            Answer = late ? "Skipped: it was missed for too long." : null,
        };
    }

    /// <summary>By person, what was queued or skipped for the hours that can still come last.</summary>
    private static async Task<ILookup<int, Known>> KnownAsync(PortalDb db, int agency, Instant now, CancellationToken stop)
    {
        var since = now.InUtc().Date.PlusDays(-9).AtMidnight();
        return (await db.Outbox.Where(o => o.AgencyId == agency && o.Slot >= since)
            .Select(o => new { o.PersonId, o.Kind, o.Slot, IsSkipped = o.EndedAt != null && o.Tries == 0 }).ToListAsync(stop))
            .ToLookup(o => o.PersonId, o => new Known(o.Kind, o.Slot!.Value, o.IsSkipped));
    }

    private async Task<IReadOnlyList<Reader>> ReadersAsync(PortalDb db, AgencyRow place, CancellationToken stop)
    {
        var today = AgencyClock.Today(clock, place.TimeZone);
        var roles = await (
            from r in db.PersonRoles
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == place.Id && p.EndedAt == null && (r.Role == Role.Provider || r.Role == Role.CaseManager)
                && r.FromDay <= today && (r.ToDay == null || r.ToDay >= today)
            select new { r.PersonId, r.Role }).ToListAsync(stop);
        var choices = await db.MailChoices.AsNoTracking().Where(c => c.AgencyId == place.Id).ToDictionaryAsync(c => c.PersonId, stop);
        return [.. roles.GroupBy(r => r.PersonId, r => r.Role).Select(person =>
        {
            var choice = choices.GetValueOrDefault(person.Key) ?? new();
            return new Reader(person.Key, choice.Hours(place.TimeZone), [.. MailKinds.For(person.ToHashSet()).Where(choice.Wants)]);
        })];
    }
}
