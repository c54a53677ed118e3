using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Codes to print for the day on which phone and passkey are lost.</summary>
internal static class RecoveryCodes
{
    public const int Count = 10;

    // No letter that looks like a figure: the codes are read from paper.
    private const string Letters = "23456789abcdefghjkmnpqrstuvwxyz";
    private const int Length = 24, Group = 4;

    /// <summary>Takes all earlier codes away and adds ten new ones.</summary>
    /// <returns>The codes, to be shown once.</returns>
    public static async Task<IReadOnlyList<string>> ReplaceAsync(AccountDb db, long account, CancellationToken stop)
    {
        await db.RecoveryCodes.Where(c => c.AccountId == account).ExecuteDeleteAsync(stop);
        var codes = Enumerable.Range(0, Count).Select(_ => Make()).ToList();
        db.RecoveryCodes.AddRange(codes.Select(c => new RecoveryCodeRow { AccountId = account, CodeHash = HashOf(c) }));
        return codes;
    }

    /// <summary>Uses a code, once, also where two use it at the same moment. False: it is none of the account's, or was used.</summary>
    public static async Task<bool> TakeAsync(AccountDb db, long account, string typed, Instant now, CancellationToken stop)
    {
        var hash = HashOf(typed);
        return await db.RecoveryCodes.Where(c => c.AccountId == account && c.CodeHash == hash && c.UsedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(c => c.UsedAt, now), stop) == 1;
    }

    /// <summary>Whether it has a recovery code's length, which no authenticator's code has.</summary>
    public static bool LooksLike(string typed) => Bare(typed).Length == Length;

    private static string Make() =>
        string.Join('-', RandomNumberGenerator.GetString(Letters, Length).Chunk(Group).Select(g => new string(g)));

    // Of 31 letters 24 are 118 random bits: nothing to guess, so a hash without salt is enough (OWASP ASVS 5.0, 6.5.2 asks 112).
    private static byte[] HashOf(string code) => Secret.Of(Bare(code)).Hash;

    private static string Bare(string typed) => string.Concat(typed.Where(char.IsAsciiLetterOrDigit)).ToLowerInvariant();
}
