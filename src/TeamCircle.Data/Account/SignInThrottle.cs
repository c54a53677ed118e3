using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>
/// Slows guessing: after five wrong tries from one place at one thing (a password of an e-mail address, the codes of an account), that place waits
/// a quarter of an hour. A browser that has signed in to the account before is a place of its own, so a stranger can't lock a person out.
/// </summary>
/// <remarks>
/// Kept in the database: several portals count together, and a restart forgets nothing. Besides, the account counts failures in a row
/// (<see cref="MostInARow"/>), after which only known browsers are let try (NIST SP 800-63B-4, 3.2.2).
/// An address that is nobody's counts just the same, so that the answer does not tell.
/// </remarks>
public sealed class SignInThrottle(IDbContextFactory<AccountDb> contexts, TimeProvider clock)
{
    public const int MostTries = 5;
    public const int MostInARow = 100;
    public static readonly Duration Wait = Duration.FromMinutes(15);

    /// <summary>Verified where there is no account, so that the answer takes as long as this portal's own hashes do.</summary>
    internal string? NobodysHash { get; set; }

    internal Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    /// <summary>Takes one try, before what was typed is looked at: tries at the same moment count too. False: wait.</summary>
    /// <param name="what">What is tried: an e-mail address in one case, or the codes of an account.</param>
    /// <param name="place">A network address, or a known browser's own mark.</param>
    public async Task<bool> TryTakeAsync(string what, string place, CancellationToken stop)
    {
        var (key, now) = (Key(what, place), Now);
        var fresh = now - Wait;
        await using var db = await contexts.CreateDbContextAsync(stop);
        // One statement, so that two tries at one moment are two, in whichever portal.
        var counts = await db.Database.SqlQuery<int>($"""
            insert into account.tries as t (key_hash, count, last) values ({key}, 1, {now})
            on conflict (key_hash) do update set
                count = case when t.last <= {fresh} then 1 else least(t.count, {MostTries}) + 1 end,
                last = case when t.last > {fresh} and t.count >= {MostTries} then t.last else {now} end
            returning count as "Value"
            """).ToListAsync(stop);
        return counts[0] <= MostTries;
    }

    public async Task SucceededAsync(string what, string place, CancellationToken stop)
    {
        var key = Key(what, place);
        await using var db = await contexts.CreateDbContextAsync(stop);
        await db.Tries.Where(t => t.KeyHash == key).ExecuteDeleteAsync(stop);
    }

    private static byte[] Key(string what, string place) => Secret.Of($"{what}\n{place}").Hash;
}
