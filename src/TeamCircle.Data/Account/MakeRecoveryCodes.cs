namespace TeamCircle.Data.Account;

/// <summary>Makes ten recovery codes anew, to be shown once; the earlier ones open nothing any more.</summary>
public sealed class MakeRecoveryCodes(AccountDb db, NoticeOfChange notice, TimeProvider clock)
{
    public async Task<IReadOnlyList<string>> RunAsync(long account, Place place, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var codes = await RecoveryCodes.ReplaceAsync(db, account, stop);
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.RecoveryCodesMade, Address = place.Address });
        await db.SaveChangesAsync(stop);
        await notice.QueueAsync(db, account, now, stop);
        await transaction.CommitAsync(stop);
        return codes;
    }
}
