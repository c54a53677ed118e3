using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>How long a sign-in lasts: an hour without a request, twelve hours in all.</summary>
public static class SignInSpan
{
    public static readonly Duration Idle = Duration.FromHours(1);
    public static readonly Duration Whole = Duration.FromHours(12);

    /// <summary>The last request is noted at most so often: a sign-in may end so much before its idle hour is over.</summary>
    public static readonly Duration Noted = Duration.FromMinutes(1);
}

/// <summary>Keeps what a browser's cookie stands for, so that ending it here ends it there.</summary>
public sealed class KeepSignIn(IDbContextFactory<AccountDb> contexts, TimeProvider clock)
{
    /// <param name="ticket">Protected by the caller.</param>
    /// <param name="device">The browser in a few words.</param>
    /// <returns>The key for the cookie: said once, kept as a hash.</returns>
    public async Task<string> RunAsync(long account, byte[] ticket, string device, CancellationToken stop)
    {
        var key = Secret.Make();
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var db = await contexts.CreateDbContextAsync(stop);
        db.SignIns.Add(new SignInRow
        {
            AccountId = account,
            KeyHash = key.Hash,
            Ticket = ticket,
            StartedAt = now,
            LastSeenAt = now,
            EndsAt = now + SignInSpan.Whole,
            Device = device,
        });
        await db.SaveChangesAsync(stop);
        return key.Text;
    }
}
