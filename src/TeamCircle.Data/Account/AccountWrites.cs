using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Steps that several operations on an account take inside their transaction.</summary>
internal static class AccountWrites
{
    /// <summary>Ends an account's sign-ins.</summary>
    /// <param name="except">One that stays; null where none does.</param>
    public static Task<int> EndSignInsAsync(this AccountDb db, long account, long? except, Instant now, CancellationToken stop) =>
        db.SignIns.Where(s => s.AccountId == account && s.EndedAt == null && s.Id != except)
            .ExecuteUpdateAsync(set => set.SetProperty(s => s.EndedAt, now), stop);

    /// <summary>Takes a link, once. False: somebody took it first.</summary>
    public static async Task<bool> TakeAsync(this AccountDb db, OfferedLink link, CancellationToken stop)
    {
        var (id, now) = (link.Row.Id, link.Now);
        return await db.Invitations.Where(i => i.Id == id && i.UsedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(i => i.UsedAt, now), stop) == 1;
    }
}
