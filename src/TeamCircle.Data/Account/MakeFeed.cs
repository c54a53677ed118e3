using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Makes the secret address of a person's own visits, to be shown once. An earlier one ends.</summary>
public sealed class MakeFeed(AccountDb db, TimeProvider clock)
{
    /// <param name="caller">The person whose visits they are.</param>
    /// <param name="account">Their account.</param>
    /// <returns>The secret tail of the address: 32 random bytes; we keep their hash.</returns>
    public async Task<string> RunAsync(Caller caller, long account, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var secret = Secret.Make();
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await EndFeed.AllAsync(db, caller, now, stop);
        db.Feeds.Add(new FeedRow { AgencyId = caller.AgencyId, PersonId = caller.PersonId, KeyHash = secret.Hash, MadeAt = now });
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.FeedMade, Detail = $"person {caller.PersonId} of agency {caller.AgencyId}" });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return secret.Text;
    }
}
