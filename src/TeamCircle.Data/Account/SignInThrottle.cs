using System.Collections.Concurrent;

namespace TeamCircle.Data.Account;

/// <summary>
/// Slows guessing: after five wrong passwords from one place for one e-mail address, that place waits a quarter of an
/// hour. A browser that has signed in to the account before is a place of its own, so a stranger can't lock a person out.
/// </summary>
/// <remarks>
/// Kept in memory: a restart forgets it. What lasts is the count of failures in a row on the account
/// (<see cref="MostInARow"/>), after which only known browsers are let try (NIST SP 800-63B-4, 3.2.2).
/// An address that is nobody's counts just the same, so that the answer does not tell.
/// </remarks>
public sealed class SignInThrottle(TimeProvider clock)
{
    public const int MostTries = 5;
    public const int MostInARow = 100;
    public static readonly TimeSpan Wait = TimeSpan.FromMinutes(15);
    private const int MostPlaces = 100_000;
    private readonly ConcurrentDictionary<string, Tries> _places = new();

    private sealed record Tries(int Count, DateTimeOffset Last);

    /// <summary>Verified where there is no account, so that the answer takes as long as this portal's own hashes do.</summary>
    internal string? NobodysHash { get; set; }

    /// <summary>Takes one try, before the password is looked at: tries at the same moment count too. False: wait.</summary>
    /// <param name="email">As typed, in one case.</param>
    /// <param name="place">A network address, or a known browser's own mark.</param>
    public bool TryTake(string email, string place)
    {
        Sweep();
        var now = clock.GetUtcNow();
        return _places.AddOrUpdate(
            Key(email, place), _ => new Tries(1, now),
            (_, was) => !IsFresh(was, now) ? new Tries(1, now)
                : was.Count < MostTries ? new Tries(was.Count + 1, now)
                : was with { Count = MostTries + 1 }).Count <= MostTries;
    }

    public void Succeeded(string email, string place) => _places.TryRemove(Key(email, place), out _);

    private static bool IsFresh(Tries tries, DateTimeOffset now) => tries.Last + Wait > now;

    private void Sweep()
    {
        if (_places.Count < MostPlaces)
            return;
        var now = clock.GetUtcNow();
        foreach (var (key, tries) in _places)
        {
            if (!IsFresh(tries, now))
                _places.TryRemove(key, out _);
        }
    }

    private static string Key(string email, string place) => $"{email}\n{place}";
}
