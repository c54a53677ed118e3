using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Account;

/// <summary>The secret address that a person has now.</summary>
/// <param name="LastUsedAt">To the hour; null while nobody has asked.</param>
public sealed record FeedShown(long Id, Instant MadeAt, Instant? LastUsedAt);

/// <summary>Finds out to whom a secret address belongs, and what a person's own is.</summary>
public sealed class ReadFeed(AccountDb db, ReadCaller readCaller, TimeProvider clock)
{
    private static readonly Duration Noted = Duration.FromHours(1);

    /// <summary>Null where the person has none.</summary>
    public Task<FeedShown?> OfAsync(Caller caller, CancellationToken stop) =>
        db.Feeds.AsNoTracking().Where(f => f.AgencyId == caller.AgencyId && f.PersonId == caller.PersonId && f.EndedAt == null)
            .Select(f => new FeedShown(f.Id, f.MadeAt, f.LastUsedAt)).SingleOrDefaultAsync(stop);

    /// <summary>
    /// The person whose address ends in this key, as they stand today. Null where there is none, it ended, or the account or the person has;
    /// every key takes the same way to it, whatever it looks like.
    /// </summary>
    public async Task<Caller?> FindAsync(string key, CancellationToken stop)
    {
        var hash = Secret.Of(key).Hash;
        var feed = await (
            from f in db.Feeds
            join m in db.Memberships on new { f.AgencyId, f.PersonId } equals new { m.AgencyId, m.PersonId }
            join a in db.Users on m.AccountId equals a.Id
            where f.KeyHash == hash && f.EndedAt == null && a.EndedAt == null
            select new { f.Id, f.AgencyId, f.PersonId, f.LastUsedAt }).SingleOrDefaultAsync(stop);
        if (feed is null || await readCaller.RunAsync(feed.AgencyId, feed.PersonId, stop) is not { IsStaff: true } caller)
            return null;
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        if (feed.LastUsedAt is null || feed.LastUsedAt + Noted <= now)
            await db.Feeds.Where(f => f.Id == feed.Id).ExecuteUpdateAsync(set => set.SetProperty(f => f.LastUsedAt, now), stop);
        return caller;
    }
}
