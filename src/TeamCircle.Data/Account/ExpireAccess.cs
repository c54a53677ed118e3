using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.Mail;

namespace TeamCircle.Data.Account;

/// <summary>
/// Ends what time has ended already, so that nothing of it lies about: sign-ins that are over, tries that count no more, tails of links that no longer hold and were
/// never mailed, and devices that have not been heard of for a year. Each is refused from its own hour on, with or without this.
/// </summary>
public sealed class ExpireAccess(AccountDb accounts, Portal portal, TimeProvider clock)
{
    private const string Ground = "what has outlived its time";

    /// <summary>A device that was not heard of for so long is let go as if it had been revoked: it throws away what it keeps at its next
    /// contact, but for what it has not sent.</summary>
    public static readonly Duration DeviceLasts = Duration.FromDays(365);

    public sealed record Done(int SignIns, int Links, int Devices);

    public async Task<Done> RunAsync(int agency, CancellationToken stop = default)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var idle = now - SignInSpan.Idle;
        var signIns = await accounts.SignIns.Where(s => s.EndedAt == null && (s.EndsAt <= now || s.LastSeenAt <= idle))
            .ExecuteUpdateAsync(set => set.SetProperty(s => s.EndedAt, now), stop);
        var over = now - SignInThrottle.Wait;
        await accounts.Tries.Where(t => t.Last <= over).ExecuteDeleteAsync(stop);
        await accounts.PasskeyChallenges.Where(c => c.EndsAt <= now).ExecuteDeleteAsync(stop);
        var terminal = await portal.ReadAsync(Scope.Job(agency, 0, Ground), db => db.PersonRoles
            .Where(r => r.AgencyId == agency && r.Role == Role.Terminal).Select(r => r.PersonId).FirstAsync(stop), stop);
        await using var work = await portal.OpenAsync(Scope.Job(agency, terminal, Ground), IsolationLevel.ReadCommitted, null, stop);
        var (links, devices) = (await LinksAsync(work.Db, agency, now, stop), await DevicesAsync(work.Db, agency, terminal, now, stop));
        await work.CommitAsync(stop);
        return new(signIns, links, devices);
    }

    private static Task<int> LinksAsync(PortalDb db, int agency, Instant now, CancellationToken stop)
    {
        var queuedBefore = now - MakeLink.Lasts;
        return db.Outbox.Where(o => o.AgencyId == agency && o.Secret != null && o.LearnerId == null && o.Slot == null && o.NotBefore < queuedBefore)
            .ExecuteUpdateAsync(set => set.SetProperty(o => o.State, MailState.Stopped).SetProperty(o => o.EndedAt, now)
                .SetProperty(o => o.Secret, (string?)null).SetProperty(o => o.Answer, "Stopped: the link has ended."), stop);
    }

    private static Task<int> DevicesAsync(PortalDb db, int agency, int by, Instant now, CancellationToken stop)
    {
        var heardBefore = now - DeviceLasts;
        return db.Devices.Where(d => d.AgencyId == agency && d.RevokedAt == null && (d.LastContact ?? d.MadeAt) < heardBefore)
            .ExecuteUpdateAsync(set => set.SetProperty(d => d.RevokedAt, now).SetProperty(d => d.RevokedBy, by), stop);
    }
}
