using TeamCircle.Core.Family;

namespace TeamCircle.Core.Guide;

/// <summary>One word of the glossary: what staff read, what a family reads, and what it means in one plain sentence.</summary>
/// <param name="Staff">As it stands in a sentence on staff pages, in lower case.</param>
/// <param name="Meaning">For staff.</param>
public sealed record Term(string Staff, string Meaning)
{
    /// <summary>What a family reads for it, in both languages; null for a word that no family meets.</summary>
    public Phrase? Family { get; init; }

    /// <summary>What it means, for a family; there wherever <see cref="Family"/> is.</summary>
    public Phrase? Told { get; init; }

    /// <summary>Words of the trade or of the code that no page says for it.</summary>
    public IReadOnlyList<string> Never { get; init; } = [];

    /// <summary>The word where it begins a line.</summary>
    public string Begun => char.ToUpperInvariant(Staff[0]) + Staff[1..];

    /// <summary>The name by which a link leads to it: <c>not-yet-given</c>.</summary>
    public string Anchor => new([.. Staff.Where(c => char.IsAsciiLetter(c) || c is ' ' or '-').Select(c => c == ' ' ? '-' : c)]);
}
