using System.Text;

namespace TeamCircle.Core.Calendar;

/// <summary>Content lines of RFC 5545, section 3.1, and the text values of section 3.3.11.</summary>
/// <remarks>Our own: the library that works out recurrences folds between the halves of a character outside the first plane.</remarks>
public static class ContentLine
{
    /// <summary>The most octets of a line, its line break not counted.</summary>
    public const int MostOctets = 75;

    /// <summary>Adds a line, folded where it is too long, with its line break.</summary>
    public static void Add(StringBuilder to, string line)
    {
        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > MostOctets)
            {
                to.Append("\r\n ");
                octets = 1; // the space that begins a folded line counts
            }
            to.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }
        to.Append("\r\n");
    }

    /// <summary>A value of type TEXT: backslash, semicolon, comma and line breaks are escaped, other control characters left out.</summary>
    public static string Text(string value)
    {
        var text = new StringBuilder(value.Length);
        foreach (var letter in value.ReplaceLineEndings("\n"))
        {
            if (letter == '\n')
                text.Append("\\n");
            else if (letter is '\\' or ';' or ',')
                text.Append('\\').Append(letter);
            else if (!char.IsControl(letter) || letter == '\t')
                text.Append(letter);
        }
        return text.ToString();
    }
}
