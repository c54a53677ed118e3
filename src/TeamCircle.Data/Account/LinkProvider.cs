using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Account;

/// <summary>Links one's account with an identity at a provider, or ends such a link.</summary>
public sealed class LinkProvider(AccountDb db, NoticeOfChange notice, TimeProvider clock)
{
    public sealed record Done(long Account);

    public static readonly Problem IsSomebodyElses = new("", "That identity belongs to another account here already.");

    /// <summary>Linking what is linked so already changes nothing.</summary>
    public async Task<Outcome<Done>> RunAsync(long account, ProviderIdentity who, Place place, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await AddAsync(db, account, who, now, stop);
        if (await db.ProviderLinks.AsNoTracking().SingleAsync(l => l.Issuer == who.Issuer && l.Subject == who.Subject, stop) is var link && link.AccountId != account)
            return Outcome<Done>.Refused(IsSomebodyElses);
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.ProviderLinked, Detail = who.Issuer, Address = place.Address });
        await db.SaveChangesAsync(stop);
        await notice.QueueAsync(db, account, now, stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(account));
    }

    /// <returns>False where there was none.</returns>
    public async Task<bool> EndAsync(long account, string issuer, Place place, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        if (await db.ProviderLinks.Where(l => l.AccountId == account && l.Issuer == issuer).ExecuteDeleteAsync(stop) == 0)
            return false;
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.ProviderUnlinked, Detail = issuer, Address = place.Address });
        await db.SaveChangesAsync(stop);
        await notice.QueueAsync(db, account, now, stop);
        await transaction.CommitAsync(stop);
        return true;
    }

    /// <summary>Of two at the same moment one stands.</summary>
    internal static Task<int> AddAsync(AccountDb db, long account, ProviderIdentity who, Instant now, CancellationToken stop) =>
        db.Database.ExecuteSqlAsync($"""
            insert into account.provider_links (issuer, subject, account_id, since) values ({who.Issuer}, {who.Subject}, {account}, {now}) on conflict do nothing
            """, stop);
}
