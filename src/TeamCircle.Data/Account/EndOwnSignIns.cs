using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Ends sign-ins of one's own account in other browsers.</summary>
public sealed class EndOwnSignIns(AccountDb db, TimeProvider clock)
{
    /// <param name="only">The one to end; null for all but <paramref name="thisSignIn"/>.</param>
    /// <returns>How many ended; 0 where the one named is not the account's own or has ended already.</returns>
    public async Task<int> RunAsync(long account, long thisSignIn, long? only, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var ended = only is { } one
            ? await db.SignIns.Where(s => s.AccountId == account && s.Id == one && s.EndedAt == null)
                .ExecuteUpdateAsync(set => set.SetProperty(s => s.EndedAt, now), stop)
            : await db.EndSignInsAsync(account, thisSignIn, now, stop);
        if (ended > 0)
            db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.SignInEnded, Detail = $"{ended}, by their owner" });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return ended;
    }
}
