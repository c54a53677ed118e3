using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Tests;

/// <summary>A parsed page as a person reads it.</summary>
public static class Reading
{
    /// <summary>A page as that person sees it, parsed.</summary>
    public static async Task<IHtmlDocument> PageAsync(this TeamPortal portal, PersonRow person, string path)
    {
        var browser = await portal.BrowserAsync(person);
        return await new HtmlParser().ParseDocumentAsync(await browser.GetStringAsync(new Uri(path, UriKind.Relative)));
    }

    /// <summary>The text of an element, with white space as one reads it.</summary>
    public static string Text(this IParentNode page, string selector) =>
        Squeeze(page.QuerySelector(selector)?.TextContent ?? throw new InvalidOperationException($"The page has no {selector}."));

    public static IReadOnlyList<string> Texts(this IParentNode page, string selector) =>
        [.. page.QuerySelectorAll(selector).Select(e => Squeeze(e.TextContent))];

    /// <summary>The part of a page under the heading.</summary>
    public static IElement Part(this IParentNode page, string heading) =>
        page.QuerySelectorAll("section.part").Single(s => s.QuerySelector("h2") is { } h && Squeeze(h.TextContent) == heading);

    private static string Squeeze(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
