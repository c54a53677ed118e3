using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>A sign-in that lives, and what its account must show besides.</summary>
/// <param name="HasFactor">The account has an authenticator or a passkey.</param>
/// <param name="StrictFor">The agencies, of those where the account stands, in which families need a second factor.</param>
public sealed record LivingSignIn(long Id, byte[] Ticket, bool HasFactor, bool IsDemonstration, IReadOnlyList<int> StrictFor);

/// <summary>Finds the sign-in behind a cookie, once a request, and notes that it was used.</summary>
public sealed class FindSignIn(IDbContextFactory<AccountDb> contexts, DemonstrationAccounts demonstration, TimeProvider clock)
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
                && (!a.IsDemonstration || demonstration.AreLetIn)
            select new
            {
                s.Id,
                s.Ticket,
                s.LastSeenAt,
                a.IsDemonstration,
                HasFactor = db.Authenticators.Any(f => f.AccountId == a.Id) || db.UserPasskeys.Any(p => p.UserId == a.Id),
                StrictFor = db.SignInRules.Where(r => r.FamiliesNeedSecondFactor && db.Memberships.Any(m => m.AccountId == a.Id && m.AgencyId == r.AgencyId))
                    .Select(r => r.AgencyId).ToList(),
            }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        if (found.LastSeenAt + SignInSpan.Noted <= now)
            await db.SignIns.Where(r => r.Id == found.Id).ExecuteUpdateAsync(set => set.SetProperty(r => r.LastSeenAt, now), stop);
        return new LivingSignIn(found.Id, found.Ticket, found.HasFactor, found.IsDemonstration, found.StrictFor);
    }
}
