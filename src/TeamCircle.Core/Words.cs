using System.Text;

namespace TeamCircle.Core;

/// <summary>Codes in the words that files and screens use: <c>OccupationalTherapy</c> is "occupational therapy".</summary>
/// <remarks>One rule (words of a code's name, in lower case) and the few exceptions that the trade writes otherwise.</remarks>
public static class Words
{
    private static readonly Dictionary<string, string> Exceptions = new()
    {
        ["SpeechLanguage"] = "speech-language",
        ["WarmUp"] = "warm-up",
        ["ResponsesOf"] = "responses of n",
    };

    /// <summary>The words of a code, in lower case.</summary>
    public static string Of<T>(T code) where T : struct, Enum
    {
        var name = code.ToString();
        if (Exceptions.TryGetValue(name, out var exception))
            return exception;
        var words = new StringBuilder(name.Length + 6);
        for (var i = 0; i < name.Length; i++)
        {
            if (i > 0 && char.IsUpper(name[i]))
                words.Append(' ');
            words.Append(char.ToLowerInvariant(name[i]));
        }
        return words.ToString();
    }

    /// <summary>
    /// The code for words as a clerk writes them, or for the code's own name as files write it (<c>inFull</c>): case and
    /// spaces too many do not matter; null where there is none.
    /// </summary>
    public static T? Find<T>(string words) where T : struct, Enum
    {
        var sought = string.Join(' ', words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        foreach (var code in Enum.GetValues<T>())
        {
            if (string.Equals(Of(code), sought, StringComparison.OrdinalIgnoreCase) ||
                string.Equals(code.ToString(), sought, StringComparison.OrdinalIgnoreCase))
                return code;
        }
        return null;
    }
}
