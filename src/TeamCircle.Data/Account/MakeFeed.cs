using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Makes the secret address of a person's own visits, to be shown once. An earlier one ends.</summary>
public sealed class MakeFeed(AccountDb db, TimeProvider clock)
{
    /// <param name="Key">The secret tail of the address: 32 random bytes; we keep their hash.</param>
    public sealed record Made(string Key);

    /// <param name="caller">The person whose visits they are.</param>
    /// <param name="account">Their account.</param>
    /// <param name="operation">Names the form: the same one makes one address, which cannot be shown a second time.</param>
    public async Task<Outcome<Made>> RunAsync(Caller caller, long account, Guid operation, CancellationToken stop)
    {
        if (operation == Guid.Empty)
            return Outcome<Made>.Refused(Refusals.NoNumber);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var secret = Secret.Make();
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await EndFeed.LockAsync(db, caller, stop);
        if (await db.Feeds.AnyAsync(f => f.AgencyId == caller.AgencyId && f.PersonId == caller.PersonId && f.OperationId == operation, stop))
            return Outcome<Made>.Refused("", "This form made its address already, and showed it then. If you did not keep it, make a new one.");
        await EndFeed.Standing(db, caller).ExecuteUpdateAsync(set => set.SetProperty(f => f.EndedAt, now), stop);
        db.Feeds.Add(new FeedRow { AgencyId = caller.AgencyId, PersonId = caller.PersonId, KeyHash = secret.Hash, OperationId = operation, MadeAt = now });
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.FeedMade, Detail = $"person {caller.PersonId} of agency {caller.AgencyId}" });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Made>.Of(new(secret.Text));
    }
}
