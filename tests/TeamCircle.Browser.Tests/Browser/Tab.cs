using System.Collections.Concurrent;
using System.Text;
using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Practice;
using TeamCircle.Testing;

namespace TeamCircle.Browser.Tests.Browser;

/// <summary>A browser window that collects what goes wrong in it: script errors, blocked content, failed requests.</summary>
public sealed class Tab : IAsyncDisposable
{
    public const int Phone = 390;
    public const int Desk = 1280;

    // The browser's own words for this differ from version to version.
    private const string TellOfBlockedContent =
        "addEventListener('securitypolicyviolation', e => console.error('blocked by the content security policy: ' + e.effectiveDirective + ' ' + e.blockedURI))";

    private readonly ConcurrentQueue<string> _complaints = new();
    private readonly ConcurrentQueue<string> _told = new();
    private readonly List<string> _allowed = [];

    private Tab(IPage page) => Page = page;

    public IPage Page { get; }

    internal static async Task<Tab> OpenAsync(IBrowserContext context)
    {
        await context.AddInitScriptAsync(TellOfBlockedContent);
        var tab = new Tab(await context.NewPageAsync());
        tab.Page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
                tab._complaints.Enqueue(message.Text);
        };
        tab.Page.PageError += (_, error) => tab._complaints.Enqueue(error);
        tab.Page.Request += (_, request) =>
        {
            foreach (var word in Canaries.In(Uri.UnescapeDataString(request.Url), Canaries.Records))
                tab._told.Enqueue($"an address: {word}");
        };
        tab.Page.RequestFailed += (_, request) => tab._complaints.Enqueue($"{request.Failure} {request.Url}");
        return tab;
    }

    /// <summary>Says that a complaint with this text belongs to the test, such as the answer 404 to a page that must not be seen.</summary>
    public void Allow(string partOfComplaint) => _allowed.Add(partOfComplaint);

    /// <summary>No script error, no blocked content, no failed request since the window was opened.</summary>
    public void AssertNoComplaints()
    {
        string[] complaints = [.. _complaints.Where(complaint => !_allowed.Exists(part => complaint.Contains(part, StringComparison.Ordinal)))];
        Assert.Empty(complaints);
    }

    /// <summary>axe finds nothing on the page as it stands, light and dark; each finding is listed with its place.</summary>
    /// <remarks>In the dark only colours differ, so only they are looked at again.</remarks>
    public async Task AssertAccessibleAsync()
    {
        var colours = new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "rule", Values = ["color-contrast"] } };
        foreach (var (scheme, rules) in new[] { (ColorScheme.Light, new AxeRunOptions()), (ColorScheme.Dark, colours) })
        {
            await Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = scheme });
            var found = await Page.RunAxe(rules);
            Assert.Empty(found.Violations.SelectMany(violation => violation.Nodes
                .Select(node => $"{scheme}: {violation.Id}, {violation.Help}: {node.Html}")));
        }
        await Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
    }

    /// <summary>Printed, the page is one sheet of that size.</summary>
    public async Task AssertOneSheetAsync(string format)
    {
        var sheet = await Page.PdfAsync(new PagePdfOptions { Format = format, PreferCSSPageSize = true });
        Assert.Equal((format, 1), (format, Regex.Count(Encoding.Latin1.GetString(sheet), @"/Type\s*/Page\b")));
    }

    /// <summary>Nothing on the page is wider than the window.</summary>
    public async Task AssertFitsAsync(int width)
    {
        await Page.SetViewportSizeAsync(width, 900);
        Assert.InRange(await Page.EvaluateAsync<int>("document.documentElement.scrollWidth"), 0, width);
    }

    /// <summary>Saves the whole page as a phone and a desk show it, light and dark, to artifacts/pictures for a person to look at;
    /// only where <c>TEAMCIRCLE_PICTURES</c> is set, since a run without a person to look needs none. The window is a desk's afterwards.</summary>
    public async Task PictureAsync(string name)
    {
        if (!TakesPictures)
        {
            await Page.SetViewportSizeAsync(Desk, 900);
            return;
        }
        foreach (var width in new[] { Phone, Desk })
        {
            await Page.SetViewportSizeAsync(width, 900);
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                await Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = scheme });
                var file = $"{name}-{width}{(scheme == ColorScheme.Dark ? "-dark" : "")}.png";
                await Page.ScreenshotAsync(new PageScreenshotOptions { FullPage = true, Path = Path.Combine(Pictures, file) });
            }
        }
        await Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
    }

    /// <summary>Saves the whole page as it stands, in the window's own size and media.</summary>
    public async Task PictureAsItIsAsync(string name)
    {
        if (TakesPictures)
            await Page.ScreenshotAsync(new PageScreenshotOptions { FullPage = true, Path = Path.Combine(Pictures, name + ".png") });
    }

    /// <summary>Closes the window, after a look at what it asked for and what it leaves on the device: no word of a record stands there in clear.</summary>
    public async ValueTask DisposeAsync()
    {
        if (!Page.IsClosed && Page.Url.StartsWith("http", StringComparison.Ordinal))
        {
            foreach (var word in Canaries.In(await Page.EvaluateAsync<string>(Tablet.Dump), [.. Canaries.Records, .. Canaries.Secrets]))
                _told.Enqueue($"on the device: {word}");
        }
        await Page.Context.DisposeAsync();
        Assert.Empty(_told);
    }

    private static bool TakesPictures { get; } = Environment.GetEnvironmentVariable("TEAMCIRCLE_PICTURES") is { Length: > 0 };

    private static string Pictures { get; } = Path.Combine(SourceTree.Root, "artifacts", "pictures");
}
