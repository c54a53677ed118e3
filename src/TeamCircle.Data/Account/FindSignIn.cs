using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>A sign-in that lives.</summary>
public sealed record LivingSignIn(long Id, byte[] Ticket);

/// <summary>Finds the sign-in behind a cookie, once a request, and notes that it was used.</summary>
public sealed class FindSignIn(IDbContextFactory<AccountDb> contexts, TimeProvider clock)
{
    /// <summary>Null where it was ended, stood idle for an hour, is twelve hours old, or its account was ended.</summary>
    public async Task<LivingSignIn?> RunAsync(string key, CancellationToken stop)
    {
        var hash = Secret.Of(key).Hash;
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var seenAfter = now - SignInSpan.Idle;
        await using var db = await contexts.CreateDbContextAsync(stop);
        var found = await (
            from s in db.SignIns
            join a in db.Users on s.AccountId equals a.Id
            where s.KeyHash == hash && s.EndedAt == null && s.EndsAt > now && s.LastSeenAt > seenAfter && a.EndedAt == null
            select new { s.Id, s.Ticket, s.LastSeenAt }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        if (found.LastSeenAt + SignInSpan.Noted <= now)
            await db.SignIns.Where(r => r.Id == found.Id).ExecuteUpdateAsync(set => set.SetProperty(r => r.LastSeenAt, now), stop);
        return new LivingSignIn(found.Id, found.Ticket);
    }
}
