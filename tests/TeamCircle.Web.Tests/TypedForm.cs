using System.Net;
using AngleSharp;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;

namespace TeamCircle.Web.Tests;

/// <summary>A form as a browser holds it: what the page put into its fields, what a person types, and sending it.</summary>
public sealed class TypedForm
{
    private readonly HttpClient _browser;
    private readonly string _address;
    private readonly List<KeyValuePair<string, string>> _fields;

    private TypedForm(HttpClient browser, string address, IDocument page)
    {
        (_browser, _address, Page) = (browser, address, page);
        var form = page.QuerySelector("main form") as IHtmlFormElement ?? throw new InvalidOperationException($"{address} shows no form: {page.Body?.TextContent}");
        _fields = [.. form.Elements.OfType<IHtmlElement>().SelectMany(Fields)];
    }

    public IDocument Page { get; }

    /// <summary>The page's own words, without the layout around them.</summary>
    public string Words => Page.QuerySelector("main")!.TextContent;

    public static async Task<TypedForm> OpenAsync(HttpClient browser, string address)
    {
        using var answer = await browser.GetAsync(new Uri(address, UriKind.Relative));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await ReadAsync(browser, address, answer);
    }

    public string this[string name] => _fields.Single(f => f.Key == name).Value;

    public TypedForm Type(string name, string value)
    {
        _fields.RemoveAll(f => f.Key == name);
        _fields.Add(new(name, value));
        return this;
    }

    public TypedForm Tick(string name, params string[] values)
    {
        _fields.RemoveAll(f => f.Key == name);
        _fields.AddRange(values.Select(v => new KeyValuePair<string, string>(name, v)));
        return this;
    }

    /// <summary>Sends it by the button that goes to a handler; the unnamed one by default.</summary>
    public async Task<HttpResponseMessage> SendAsync(string handler = "")
    {
        using var content = new FormUrlEncodedContent(_fields);
        return await _browser.PostAsync(new Uri(handler.Length == 0 ? _address : $"{_address}?handler={handler}", UriKind.Relative), content);
    }

    /// <summary>Sends it, and gives the form that is shown again.</summary>
    public async Task<TypedForm> SendForAgainAsync(string handler = "", HttpStatusCode expected = HttpStatusCode.OK)
    {
        using var answer = await SendAsync(handler);
        Assert.Equal(expected, answer.StatusCode);
        return await ReadAsync(_browser, _address, answer);
    }

    /// <summary>Sends it, follows where a saved form leads, and gives that page's words.</summary>
    public async Task<string> SaveAsync(string handler = "")
    {
        using var answer = await SendAsync(handler);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.Content.ReadAsStringAsync());
        var page = await _browser.GetStringAsync(new Uri(answer.Headers.Location!.ToString().Split('#')[0], UriKind.Relative));
        return (await ParseAsync(page)).QuerySelector("main")!.TextContent;
    }

    public static Task<IDocument> ParseAsync(string html) =>
        BrowsingContext.New(Configuration.Default).OpenAsync(request => request.Content(html));

    private static async Task<TypedForm> ReadAsync(HttpClient browser, string address, HttpResponseMessage answer) =>
        new(browser, address, await ParseAsync(await answer.Content.ReadAsStringAsync()));

    private static IEnumerable<KeyValuePair<string, string>> Fields(IHtmlElement element) => element switch
    {
        IHtmlInputElement { Name: { Length: > 0 } name, Type: "radio" or "checkbox" } box => box.IsChecked ? [new(name, box.Value)] : [],
        IHtmlInputElement { Name: { Length: > 0 } name } input => [new(name, input.Value)],
        IHtmlTextAreaElement { Name: { Length: > 0 } name } area => [new(name, area.Value)],
        IHtmlSelectElement { Name: { Length: > 0 } name } select => [new(name, select.Value ?? "")],
        _ => [],
    };
}
