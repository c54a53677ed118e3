using System.Reflection;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Guide;

namespace TeamCircle.Core.Tests.Guide;

/// <summary>The one glossary is whole: every term on its page, every word once, both languages wherever a family reads it.</summary>
public sealed class GlossaryTests
{
    private static IReadOnlyList<Term> All => [.. Glossary.Parts.SelectMany(p => p.Terms)];

    [Fact]
    public void Every_term_and_status_stands_on_the_page_once_with_a_sentence()
    {
        var named = typeof(Glossary).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => f.GetValue(null)).OfType<Term>().Concat(Enum.GetValues<Status>().Select(Glossary.Of));

        Assert.Equal(named.Select(t => t.Staff).Order(StringComparer.Ordinal), All.Select(t => t.Staff).Order(StringComparer.Ordinal));
        Assert.Equal(All.Count, All.Select(t => t.Anchor).Distinct().Count());
        Assert.All(All, t => Assert.EndsWith(".", t.Meaning, StringComparison.Ordinal));
    }

    [Fact]
    public void What_families_read_is_told_in_both_languages()
    {
        Assert.All(All.Where(t => t.Family is not null), t => Assert.NotNull(t.Told));
        Assert.All(All.Where(t => t.Told is not null), t =>
        {
            Assert.NotNull(t.Family);
            Assert.DoesNotContain("", new[] { t.Family.English, t.Family.Spanish, t.Told!.English, t.Told.Spanish });
        });
    }
}
