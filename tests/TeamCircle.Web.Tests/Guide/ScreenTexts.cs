using System.Text;
using System.Text.RegularExpressions;
using TeamCircle.Core;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Guide;

/// <summary>What can stand on a screen, read from the source: each text of a view, each literal, each code in words. "…" stands for what is put in.</summary>
/// <remarks>Whole texts, never parts: a label that is renamed is in it no more.</remarks>
internal static partial class ScreenTexts
{
    private const char Put = '…';

    /// <summary>All texts; with the file in which each was found.</summary>
    public static IReadOnlyDictionary<string, string> All { get; } = Collect();

    [GeneratedRegex(@"@\*.*?\*@", RegexOptions.Singleline)]
    private static partial Regex Comments();

    [GeneratedRegex(">([^<>]+)<")]
    private static partial Regex BetweenTags();

    [GeneratedRegex("""\$?"((?:[^"\\\n]|\\.)*)["]""")]
    private static partial Regex Literals();

    [GeneratedRegex("""'((?:[^'\\\n]|\\.)*)'|`((?:[^`\\]|\\.)*)`|"((?:[^"\\\n]|\\.)*)["]""")]
    private static partial Regex ScriptLiterals();

    [GeneratedRegex(@"\$?\{[^{}]*\}")]
    private static partial Regex Holes();

    [GeneratedRegex(@"^\s*///?.*$", RegexOptions.Multiline)]
    private static partial Regex CodeComments();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Space();

    private static Dictionary<string, string> Collect()
    {
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        void Add(IEnumerable<string> found, string file)
        {
            foreach (var text in found)
                texts.TryAdd(Space().Replace(text, " ").Trim(), file);
        }
        foreach (var file in SourceTree.Files("src/TeamCircle.Web/Pages", ".cshtml"))
            Add(OfView(Comments().Replace(File.ReadAllText(file), "")), file);
        foreach (var file in SourceTree.Files("src/TeamCircle.Web", ".cs").Concat(SourceTree.Files("src/TeamCircle.Core", ".cs")))
            Add(OfCode(CodeComments().Replace(File.ReadAllText(file), "")), file);
        foreach (var file in SourceTree.Files("src/TeamCircle.Web/wwwroot/js", ".js"))
            Add(ScriptLiterals().Matches(File.ReadAllText(file)).Select(m => Hollow(string.Concat(m.Groups.Values.Skip(1).Select(g => g.Value))).Replace("\\'", "'", StringComparison.Ordinal)), file);
        foreach (var type in typeof(Words).Assembly.GetTypes().Where(t => t.IsEnum))
            Add(Enum.GetNames(type).Select(n => Regex.Replace(n, "(?<=.)([A-Z])", m => " " + char.ToLowerInvariant(m.Value[0]))), type.Name);
        return texts;
    }

    /// <summary>The texts of a view between its tags, and its literals and attributes.</summary>
    public static IEnumerable<string> OfView(string view) => BetweenTags().Matches(WithoutExpressions(view)).Select(m => m.Groups[1].Value).Concat(OfCode(view));

    private static IEnumerable<string> OfCode(string code) => Literals().Matches(code).Select(m => Hollow(m.Groups[1].Value).Replace("\\\"", "\"", StringComparison.Ordinal));

    private static string Hollow(string text) => Holes().Replace(text, $"{Put}");

    /// <summary>What a view puts in becomes "…": <c>@Model.Name</c>, <c>@Say.Date(day)</c>, <c>@(a ? b : c)</c>.</summary>
    private static string WithoutExpressions(string view)
    {
        var text = new StringBuilder(view.Length);
        for (var at = 0; at < view.Length;)
        {
            var end = view[at] == '@' ? EndOfExpression(view, at + 1) : at;
            if (end > at + 1)
                text.Append(Put);
            else
                text.Append(view[at]);
            at = Math.Max(at + 1, end);
        }
        return text.ToString();
    }

    private static int EndOfExpression(string view, int at)
    {
        if (at < view.Length && view[at] == '(')
            return EndOfBrackets(view, at);
        var end = EndOfName(view, at);
        while (end > at && end < view.Length)
        {
            if (view[end] is '(' or '[')
                end = EndOfBrackets(view, end);
            else if (view[end] is '!' or '?' && end + 1 < view.Length && view[end + 1] == '.')
                end++;
            else if (view[end] == '.' && EndOfName(view, end + 1) is var next && next > end + 1)
                end = next;
            else
                break;
        }
        return end;
    }

    private static int EndOfName(string view, int at)
    {
        var end = at;
        while (end < view.Length && (char.IsAsciiLetter(view[end]) || view[end] == '_' || (end > at && char.IsAsciiDigit(view[end]))))
            end++;
        return end;
    }

    private static int EndOfBrackets(string view, int at)
    {
        var depth = 0;
        for (; at < view.Length; at++)
        {
            depth += view[at] is '(' or '[' ? 1 : view[at] is ')' or ']' ? -1 : 0;
            if (depth == 0)
                return at + 1;
        }
        return at;
    }
}
