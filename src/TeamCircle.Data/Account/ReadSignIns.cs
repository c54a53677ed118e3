using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>One living sign-in, for its owner's list.</summary>
public sealed record SignInLine(long Id, string Device, Instant StartedAt, Instant LastSeenAt);

/// <summary>Where an account is signed in at this moment; the latest first.</summary>
public sealed class ReadSignIns(AccountDb db, TimeProvider clock)
{
    public async Task<IReadOnlyList<SignInLine>> RunAsync(long account, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var seenAfter = now - SignInSpan.Idle;
        return await db.SignIns.AsNoTracking()
            .Where(s => s.AccountId == account && s.EndedAt == null && s.EndsAt > now && s.LastSeenAt > seenAfter)
            .OrderByDescending(s => s.LastSeenAt).ThenByDescending(s => s.Id)
            .Select(s => new SignInLine(s.Id, s.Device ?? "", s.StartedAt, s.LastSeenAt)).ToListAsync(stop);
    }
}
