using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Ends the sign-in behind a cookie: its key opens nothing from the next request on.</summary>
public sealed class EndSignIn(IDbContextFactory<AccountDb> contexts, TimeProvider clock)
{
    public async Task RunAsync(string key, CancellationToken stop)
    {
        var hash = Secret.Of(key).Hash;
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var db = await contexts.CreateDbContextAsync(stop);
        var found = await db.SignIns.SingleOrDefaultAsync(r => r.KeyHash == hash && r.EndedAt == null, stop);
        if (found is null)
            return;
        found.EndedAt = now;
        db.Events.Add(new AccountEventRow { AccountId = found.AccountId, At = now, Kind = AccountEvent.SignedOut });
        await db.SaveChangesAsync(stop);
    }
}
