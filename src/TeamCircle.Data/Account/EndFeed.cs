using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Ends the secret address of a person's own visits.</summary>
public sealed class EndFeed(AccountDb db, TimeProvider clock)
{
    /// <returns>False where there was none.</returns>
    public async Task<bool> RunAsync(Caller caller, long account, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        if (await AllAsync(db, caller, now, stop) == 0)
            return false;
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.FeedEnded, Detail = $"person {caller.PersonId} of agency {caller.AgencyId}" });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return true;
    }

    // Two requests of one person wait for each other, so that the later one ends what the first one made.
    internal static async Task<int> AllAsync(AccountDb db, Caller caller, Instant now, CancellationToken stop)
    {
        await db.Database.ExecuteSqlAsync($"select from account.memberships where agency_id = {caller.AgencyId} and person_id = {caller.PersonId} for update", stop);
        return await db.Feeds.Where(f => f.AgencyId == caller.AgencyId && f.PersonId == caller.PersonId && f.EndedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(f => f.EndedAt, now), stop);
    }
}
