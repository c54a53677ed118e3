using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Ends the secret address of a person's own visits, the one that the page showed: a form sent late ends no newer one.</summary>
public sealed class EndFeed(AccountDb db, TimeProvider clock)
{
    /// <param name="feed">The number of the address.</param>
    /// <returns>False where it had ended.</returns>
    public async Task<bool> RunAsync(Caller caller, long account, long feed, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await LockAsync(db, caller, stop);
        if (await Standing(db, caller).Where(f => f.Id == feed).ExecuteUpdateAsync(set => set.SetProperty(f => f.EndedAt, now), stop) == 0)
            return false;
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.FeedEnded, Detail = $"person {caller.PersonId} of agency {caller.AgencyId}" });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return true;
    }

    // Two requests of one person wait for each other, so that the later one ends what the first one made.
    internal static Task<int> LockAsync(AccountDb db, Caller caller, CancellationToken stop) => db.Database.ExecuteSqlAsync(
        $"select from account.memberships where agency_id = {caller.AgencyId} and person_id = {caller.PersonId} for update", stop);

    internal static IQueryable<FeedRow> Standing(AccountDb db, Caller caller) =>
        db.Feeds.Where(f => f.AgencyId == caller.AgencyId && f.PersonId == caller.PersonId && f.EndedAt == null);
}
