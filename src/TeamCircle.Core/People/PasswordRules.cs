using System.Collections.Frozen;
using System.Text;
using System.Text.Json;

namespace TeamCircle.Core.People;

/// <summary>What a password must be: long, and not one of those that are tried first. Nothing about kinds of characters.</summary>
/// <remarks>
/// Length over composition, a list of common passwords, the whole password compared: NIST SP 800-63B-4, 3.1.1.2;
/// OWASP ASVS 5.0, 6.2.1, 6.2.4, 6.2.5, 6.2.9, 6.2.11.
/// </remarks>
public static class PasswordRules
{
    /// <summary>Characters (code points), where the password is the only factor.</summary>
    public const int Shortest = 15;

    /// <summary>A bound so that nobody makes us hash a book.</summary>
    public const int Longest = 256;

    private static readonly FrozenSet<string> Common = ReadCommon();

    /// <summary>One form for characters that can be typed in several ways, before a password is set or compared.</summary>
    public static string Normal(string typed) => typed.Normalize(NormalizationForm.FormC);

    /// <summary>All that is wrong with a new password; empty where nothing is.</summary>
    /// <param name="context">What a stranger would try for this person: their name, their address, the agency's name.</param>
    public static IReadOnlyList<Problem> Check(string field, string typed, IEnumerable<string> context)
    {
        var password = Normal(typed);
        var length = password.EnumerateRunes().Count();
        if (length < Shortest)
            return [new Problem(field, $"That password has {length} characters; it needs {Shortest} or more. Four or five words that do not belong together are easy to remember.")];
        if (length > Longest)
            return [new Problem(field, $"That password has {length} characters; {Longest} is the most.")];
        return IsTriedFirst(password.ToLowerInvariant(), [.. context.SelectMany(WordsIn)])
            ? [new Problem(field, "That password is one of the first that strangers try: a common one, one thing repeated, or a name with something after it. Take four or five words that do not belong together.")]
            : [];
    }

    private static bool IsTriedFirst(string password, HashSet<string> context)
    {
        var bare = Unrepeated(Solid(password.TrimEnd(TrailingMarks)));
        var whole = Unrepeated(Solid(password));
        return whole.Length <= 3 || new[] { bare, whole }.Any(p => Common.Contains(p) || context.Contains(p));
    }

    private static readonly char[] TrailingMarks = [.. "0123456789!?.,;:-_+*#$%&@ "];

    private static string Solid(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c) && c is not ('-' or '_' or '.')));

    /// <summary>"abcabcab" is "abc".</summary>
    private static string Unrepeated(string text)
    {
        for (var unit = 1; unit <= text.Length / 2; unit++)
        {
            if (Enumerable.Range(0, text.Length - unit).All(i => text[i] == text[i + unit]))
                return text[..unit];
        }
        return text;
    }

    /// <summary>A name as a whole and each word of it.</summary>
    private static IEnumerable<string> WordsIn(string name)
    {
        var lower = Normal(name).ToLowerInvariant();
        return lower.Split([' ', '@', '.', '-'], StringSplitOptions.RemoveEmptyEntries).Append(Solid(lower)).Append(Solid(lower.Split('@')[0]));
    }

    /// <summary>A published list of some 49,000 that were found most often, and a few hundred longer ones of our own.</summary>
    private static FrozenSet<string> ReadCommon()
    {
        using var own = new StreamReader(Resource("common-passwords.txt"));
        using var published = Resource("published-passwords.json");
        return own.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(line => !line.StartsWith('#'))
            .Concat(JsonSerializer.Deserialize<string[]>(published)!).Select(word => Solid(word.Trim().ToLowerInvariant())).ToFrozenSet();
    }

    private static Stream Resource(string name) => typeof(PasswordRules).Assembly.GetManifestResourceStream(name)!;

    /// <summary>How many common passwords are known.</summary>
    public static int KnownCommon => Common.Count;
}
