using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace TeamCircle.Web.Tests;

/// <summary>A form as a browser without scripts shows it: what stands in its fields is sent unless somebody types something else.</summary>
public sealed class FilledForm
{
    private readonly HttpClient _browser;
    private readonly string _address;
    private readonly List<KeyValuePair<string, string>> _fields;

    private FilledForm(HttpClient browser, string address, IHtmlDocument page, IHtmlFormElement form) =>
        (_browser, _address, Page, _fields) = (browser, address, page, [.. Fields(form)]);

    public IHtmlDocument Page { get; }

    /// <summary>The page's own words, without the layout around them.</summary>
    public string Words => Page.QuerySelector("main")!.TextContent;

    /// <summary>The page's main form, or the one that the selector finds.</summary>
    public static async Task<FilledForm> OpenAsync(HttpClient browser, string path, string selector = "main form[method=post]") =>
        In(browser, path, await browser.GetStringAsync(new Uri(path, UriKind.Relative)), selector);

    /// <summary>A form on the page that an answer shows.</summary>
    public static async Task<FilledForm> OfAsync(HttpClient browser, HttpResponseMessage answer, string selector = "main form[method=post]") =>
        In(browser, answer.RequestMessage!.RequestUri!.PathAndQuery, await answer.Content.ReadAsStringAsync(), selector);

    public static IHtmlDocument Parse(string html) => new HtmlParser().ParseDocument(html);

    /// <summary>What stands in a field; null where the form has none of that name.</summary>
    public string? this[string name] => _fields.Find(f => f.Key == name).Value;

    public FilledForm Type(string name, string value)
    {
        if (Page.QuerySelector($"[name='{name}']") is null)
            throw new InvalidOperationException($"The form shows no field {name}.");
        _fields.RemoveAll(f => f.Key == name);
        _fields.Add(new(name, value));
        return this;
    }

    /// <summary>Ticks one more of several boxes.</summary>
    public FilledForm Tick(string name, string value)
    {
        _fields.Add(new(name, value));
        return this;
    }

    /// <summary>Sends it by the button that goes to a handler; the unnamed one by default.</summary>
    public async Task<HttpResponseMessage> SendAsync(string handler = "")
    {
        using var content = new FormUrlEncodedContent(_fields);
        return await _browser.PostAsync(new Uri(handler.Length == 0 ? _address : $"{_address}{(_address.Contains('?') ? '&' : '?')}handler={handler}", UriKind.Relative), content);
    }

    /// <summary>Sends it, and gives the form that is shown again.</summary>
    public async Task<FilledForm> SendForAgainAsync(string handler = "", HttpStatusCode expected = HttpStatusCode.OK)
    {
        using var answer = await SendAsync(handler);
        Assert.Equal(expected, answer.StatusCode);
        return In(_browser, _address, await answer.Content.ReadAsStringAsync(), "main form[method=post]");
    }

    /// <summary>Sends it, follows where a saved form leads, and gives that page's words.</summary>
    public async Task<string> SaveAsync(string handler = "")
    {
        using var answer = await SendAsync(handler);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.Content.ReadAsStringAsync());
        var page = await _browser.GetStringAsync(new Uri(answer.Headers.Location!.ToString().Split('#')[0], UriKind.Relative));
        return Parse(page).QuerySelector("main")!.TextContent;
    }

    private static FilledForm In(HttpClient browser, string path, string html, string selector)
    {
        var page = Parse(html);
        var form = page.QuerySelector(selector) as IHtmlFormElement ?? throw new InvalidOperationException($"{path} shows no form {selector}: {page.QuerySelector("h1")?.TextContent}");
        var action = form.GetAttribute("action");
        return new(browser, string.IsNullOrEmpty(action) ? path : action, page, form);
    }

    private static IEnumerable<KeyValuePair<string, string>> Fields(IHtmlFormElement form)
    {
        foreach (var element in form.Elements)
        {
            var (name, value) = element switch
            {
                IHtmlInputElement { Type: "checkbox" or "radio", IsChecked: false } => ("", ""),
                IHtmlInputElement input => (input.Name, input.Value),
                IHtmlTextAreaElement area => (area.Name, area.Value),
                IHtmlSelectElement select => (select.Name, select.Value),
                _ => ("", ""),
            };
            if (!string.IsNullOrEmpty(name))
                yield return new(name, value ?? "");
        }
    }
}
