namespace TeamCircle.Testing;

/// <summary>
/// Words that the test worlds put into records, sign-ins and links, and that must never come out in a log, an address, a mail or what a browser
/// stores (ASVS 14.2.1, 16.2.5). Long and rare ones only: the tails of links are random letters.
/// </summary>
public static class Canaries
{
    /// <summary>Learners' surnames, and a note that staff alone may read.</summary>
    public static IReadOnlyList<string> Records { get; } = ["Belmares", "Tarrow", "Lautele", "canary of the staff"];

    /// <summary>The passphrase of every account, and the tail of an address that stops a kind of mail: no log holds them. A mail holds its own tail.</summary>
    public static IReadOnlyList<string> Secrets { get; } = ["herbs towel ribbons banana", UnsubscribeKey];

    public const string UnsubscribeKey = "8bSx5wMdXQXDnb7hYhXbVwZ5B7n0u0o1n2m3l4k5j6h";

    /// <summary>Which of the words a text holds, whatever the letters' case.</summary>
    public static IEnumerable<string> In(string text, IEnumerable<string> words) => words.Where(word => text.Contains(word, StringComparison.OrdinalIgnoreCase));

    /// <summary>Looks into every file below a folder, also one that is being written.</summary>
    /// <returns>"portal-20261126.log: Belmares" for each word found in a file; nothing where the folder is not there.</returns>
    public static IReadOnlyList<string> InFiles(string folder, string pattern, params IEnumerable<string> words)
    {
        var found = new List<string>();
        foreach (var path in Directory.Exists(folder) ? Directory.EnumerateFiles(folder, pattern, SearchOption.AllDirectories) : [])
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            using var reader = new StreamReader(file);
            var text = reader.ReadToEnd();
            found.AddRange(In(text, words).Select(word => $"{Path.GetFileName(path)}: {word}"));
        }
        return found;
    }
}
