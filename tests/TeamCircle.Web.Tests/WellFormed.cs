using AngleSharp.Html.Dom;

namespace TeamCircle.Web.Tests;

/// <summary>What every page must be, whatever it is about: one heading, unique ids, a label for every field, no inline style or script.</summary>
public static class WellFormed
{
    public static async Task AssertAsync(HttpClient browser, string address)
    {
        var page = FilledForm.Parse(await browser.GetStringAsync(new Uri(address, UriKind.Relative)));
        Assert.Single(page.QuerySelectorAll("h1"));
        Assert.Empty(page.QuerySelectorAll("[id]").GroupBy(e => e.Id).Where(g => g.Count() > 1).Select(g => g.Key));
        Assert.Empty(page.QuerySelectorAll("[style], style, script:not([type='application/json']):not([src])"));
        Assert.Empty(page.QuerySelectorAll("input:not([type=hidden]), select, textarea").OfType<IHtmlElement>()
            .Where(f => !HasLabel(f)).Select(f => f.OuterHtml));
        Assert.DoesNotContain(page.QuerySelectorAll("[aria-describedby]").SelectMany(e => e.GetAttribute("aria-describedby")!.Split(' ')),
            id => page.GetElementById(id) is null);
    }

    private static bool HasLabel(IHtmlElement field) =>
        field.Closest("label") is not null || (field.Id is { } id && field.Owner!.QuerySelector($"label[for='{id}']") is not null);
}
