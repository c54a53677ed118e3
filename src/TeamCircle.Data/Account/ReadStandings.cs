using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>How far a person of an agency has come with signing in.</summary>
/// <param name="HasJoined">They have an account.</param>
/// <param name="LinkEndsAt">Until when a link that was made for them still works; null where none does.</param>
/// <param name="SignIns">How many browsers they are signed in with at this moment.</param>
public sealed record AccountStanding(bool HasJoined, Instant? LinkEndsAt, int SignIns);

/// <summary>Reads, for an agency's administrator, who has joined and whose link is still open.</summary>
public sealed class ReadStandings(AccountDb db, TimeProvider clock)
{
    /// <returns>By person; those who never had a link are missing.</returns>
    public async Task<IReadOnlyDictionary<int, AccountStanding>> RunAsync(int agency, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var seenAfter = now - SignInSpan.Idle;
        var members = await db.Memberships.Where(m => m.AgencyId == agency).Select(m => new
        {
            m.PersonId,
            SignIns = db.SignIns.Count(s => s.AccountId == m.AccountId && s.EndedAt == null && s.EndsAt > now && s.LastSeenAt > seenAfter),
        }).ToDictionaryAsync(m => m.PersonId, m => m.SignIns, stop);
        var links = await db.Invitations.Where(i => i.AgencyId == agency && i.PersonId != null && i.UsedAt == null && i.EndsAt > now)
            .GroupBy(i => i.PersonId!.Value).Select(g => new { Person = g.Key, EndsAt = g.Max(i => i.EndsAt) })
            .ToDictionaryAsync(g => g.Person, g => g.EndsAt, stop);
        return members.Keys.Union(links.Keys).ToDictionary(p => p, p => new AccountStanding(
            members.ContainsKey(p), links.TryGetValue(p, out var ends) ? ends : null, members.GetValueOrDefault(p)));
    }
}
