using System.Globalization;
using System.Reflection;
using System.Text;
using System.Text.RegularExpressions;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;
using TeamCircle.Core.Guide;
using TeamCircle.Testing;
using TeamCircle.Web.Pages.Guide;
using TeamCircle.Web.Startup.Access;

namespace TeamCircle.Web.Tests.Guide;

/// <summary>The guide can't grow old: what it quotes stands on a screen, where a page's foot leads is a task, and its pictures are there.</summary>
public sealed partial class GuideFileTests
{
    private static readonly string Folder = Path.Combine(SourceTree.Root, "docs", "guide");

    private static readonly Dictionary<string, Language> OfFamilies = new() { ["family.md"] = Language.English, ["familia.md"] = Language.Spanish };

    private static IEnumerable<(string Name, string Text)> Files => Directory.EnumerateFiles(Folder, "*.md").Order(StringComparer.Ordinal).Select(f => (Path.GetFileName(f), File.ReadAllText(f)));

    [GeneratedRegex(@"\*\*(.+?)\*\*")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"!?\[[^\]]*\]\(([^)]+)\)")]
    private static partial Regex Links();

    [Fact]
    public void What_a_guide_quotes_stands_on_a_screen_word_for_word()
    {
        var quotes = Files.Where(f => f.Name is not "words.md" && !OfFamilies.ContainsKey(f.Name)).SelectMany(f => Quoted().Matches(f.Text).Select(m => (f.Name, Words: m.Groups[1].Value))).ToList();

        Assert.True(quotes.Count > 200, $"Only {quotes.Count} quotations were found.");
        Assert.DoesNotContain(quotes, q => !ScreenTexts.All.ContainsKey(q.Words));
    }

    [Fact]
    public void What_a_familys_guide_quotes_stands_in_the_familys_own_words_in_its_language()
    {
        Type[] glossaries = [typeof(FamilyGlossary), typeof(SecondStepWords), typeof(OwnAccountWords)];
        var phrases = glossaries.SelectMany(g => g.GetFields(BindingFlags.Public | BindingFlags.Static)).Select(f => f.GetValue(null)).OfType<Phrase>().ToList();
        foreach (var (name, language) in OfFamilies)
        {
            var said = phrases.Select(p => Regex.Replace(p.In(language), @"\{\d\}", "…")).ToHashSet();
            var quotes = Quoted().Matches(SourceTree.Read("docs", "guide", name)).Select(m => m.Groups[1].Value).ToList();

            said.UnionWith([FamilyGlossary.OwnName.English, FamilyGlossary.OwnName.Spanish]); // each language is called as its own readers call it
            Assert.True(quotes.Count > 20, $"Only {quotes.Count} quotations were found in {name}.");
            Assert.Empty(quotes.Except(said).Select(q => $"{name}: {q}"));
        }
    }

    [Fact]
    public void Both_guides_of_families_have_the_same_tasks_in_the_same_order()
    {
        var (english, spanish) = (GuideFiles.Find("family")!, GuideFiles.Find("familia")!);

        Assert.Equal(Shape("family.md"), Shape("familia.md"));
        Assert.Equal(english.Tasks.Count(), spanish.Tasks.Count());

        // how many steps, paragraphs and pictures each task has
        static string Shape(string name) => string.Join('\n', SourceTree.Read("docs", "guide", name).Split('\n')
            .Select(l => l.StartsWith("## ", StringComparison.Ordinal) ? "task" : l.Length == 0 ? "" : char.IsAsciiDigit(l[0]) ? l[..2] : l[0] == '!' ? "picture" : "words"));
    }

    [Fact]
    public void Every_page_in_the_table_of_topics_exists_and_leads_to_a_task()
    {
        var pages = AccessMatrix.Read().Lines.Select(l => l.Page).ToHashSet();

        Assert.Empty(HelpTopics.All.Keys.Except(pages));
        Assert.Empty(HelpTopics.All.Where(t => GuideFiles.Find(t.Value.Guide)?.Tasks.All(task => task.Anchor != t.Value.Anchor) ?? true).Select(t => $"{t.Key} leads to {t.Value.Guide}#{t.Value.Anchor}"));
    }

    [Fact]
    public void Links_and_pictures_of_the_guide_are_there_and_every_picture_is_shown()
    {
        var links = Files.SelectMany(f => Links().Matches(f.Text).Select(m => (f.Name, To: m.Groups[1].Value.Split('#')[0]))).ToList();
        var pictures = Directory.EnumerateFiles(Path.Combine(Folder, "pictures")).Select(f => "pictures/" + Path.GetFileName(f)).ToList();

        Assert.DoesNotContain(links, l => !File.Exists(Path.Combine(Folder, l.To)));
        Assert.DoesNotContain(pictures.Except(links.Select(l => l.To)), p => !SourceTree.Read("README.md").Contains($"docs/guide/{p}", StringComparison.Ordinal));
        Assert.All(pictures, p => Assert.InRange(new FileInfo(Path.Combine(Folder, p)).Length, 1_000, 60_000));
    }

    /// <summary>With <c>TEAMCIRCLE_WRITE_WORDS=1</c> the file is written anew.</summary>
    [Fact]
    public void The_guides_page_of_words_says_what_the_glossary_says()
    {
        var path = Path.Combine(Folder, "words.md");
        if (Environment.GetEnvironmentVariable("TEAMCIRCLE_WRITE_WORDS") is { Length: > 0 })
            File.WriteAllText(path, WordsFile());

        Assert.Equal(WordsFile(), File.ReadAllText(path));
    }

    [Fact]
    public void No_screen_and_no_guide_says_a_word_that_the_glossary_has_another_for()
    {
        var refused = Glossary.Parts.SelectMany(p => p.Terms).SelectMany(t => t.Never).ToList();
        var texts = ScreenTexts.All.Where(t => t.Key.Contains(' ') && !t.Value.EndsWith("Glossary.cs", StringComparison.Ordinal) && t.Value.Contains("TeamCircle.Web", StringComparison.Ordinal))
            .Concat(Files.Select(f => KeyValuePair.Create(f.Text, f.Name)));

        Assert.NotEmpty(refused);
        Assert.Empty(texts.SelectMany(t => refused.Where(w => Regex.IsMatch(t.Key, $@"\b{Regex.Escape(w)}\b", RegexOptions.IgnoreCase)).Select(w => $"{Path.GetFileName(t.Value)}: {w}")));
    }

    private static string WordsFile()
    {
        var text = new StringBuilder("# Words and what they mean\n\nOne word for one thing, on every page, in every file and mail. A test writes this page from the glossary in the code.\n");
        foreach (var (heading, terms) in Glossary.Parts)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n## {heading}\n\n| word | means | families read |\n|---|---|---|\n");
            foreach (var term in terms)
                text.Append(CultureInfo.InvariantCulture, $"| {term.Staff} | {term.Meaning} | {(term.Family is { } family ? $"{family.English}; *{family.Spanish}*" : "")} |\n");
        }
        return text.ToString();
    }
}
