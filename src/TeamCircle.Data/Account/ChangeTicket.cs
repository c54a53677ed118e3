using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Changes what a living sign-in says (its agency, a reason given), without making it last longer.</summary>
public sealed class ChangeTicket(IDbContextFactory<AccountDb> contexts)
{
    public async Task RunAsync(string key, byte[] ticket, CancellationToken stop)
    {
        var hash = Secret.Of(key).Hash;
        await using var db = await contexts.CreateDbContextAsync(stop);
        await db.SignIns.Where(r => r.KeyHash == hash && r.EndedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(r => r.Ticket, ticket), stop);
    }
}
