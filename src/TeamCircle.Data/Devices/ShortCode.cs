using System.Text.RegularExpressions;

namespace TeamCircle.Data.Devices;

/// <summary>Puts a learner's short code in the place of their name in what goes to a device.</summary>
internal sealed class ShortCode(string name, string code)
{
    private const int ShortestPart = 3;

    private readonly Regex? _parts = name.Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(p => p.Length >= ShortestPart).Select(Regex.Escape).ToArray()
        is { Length: > 0 } parts ? new($@"\b(?:{Regex.Escape(name)}|{string.Join('|', parts)})\b", RegexOptions.CultureInvariant) : null;

    public string Code => code;

    /// <summary>Each part of the name as a word of its own, in the case in which it is written; parts under three letters stay.</summary>
    public string In(string text) => _parts?.Replace(text, code) ?? text;
}
