using System.Collections.Concurrent;
using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Startup;

/// <summary>What a page costs a phone that has nothing of the portal yet. Times are measured by tests/drills/browser-speed.mjs.</summary>
public sealed class FirstPageTests(PortalSite site)
{
    private const int MostBytesOfFirstPage = 150_000;

    private const string Shifts = "new PerformanceObserver(l => l.getEntries().forEach(e => window.moved = (window.moved ?? 0) + e.value)).observe({ type: 'layout-shift', buffered: true })";

    /// <summary>Letters come last: a page whose lines move when they arrive is pressed at the wrong place (Layout Instability, W3C).</summary>
    [Theory]
    [InlineData("/")]
    [InlineData("/caseload")]
    [InlineData("/calendar")]
    public async Task Nothing_moves_when_the_letters_come_and_little_is_sent(string path)
    {
        await using var first = await site.OpenAsync(site.Portal.Team.Tomasz, "/account", Tab.Phone);
        await using var tab = await Tab.OpenAsync(await site.AgainWithNothingStoredAsync(first));
        var (shown, sent) = (new TaskCompletionSource(), new ConcurrentBag<IRequest>());
        await tab.Page.AddInitScriptAsync(Shifts);
        await tab.Page.RouteAsync("**/*.woff2", async route =>
        {
            await shown.Task;
            await route.ContinueAsync();
        });
        tab.Page.RequestFinished += (_, request) => sent.Add(request);

        await tab.Page.GotoAsync(path, new PageGotoOptions { WaitUntil = WaitUntilState.DOMContentLoaded });
        await NextFrameAsync(tab);
        shown.SetResult();
        await tab.Page.WaitForLoadStateAsync(LoadState.Load);
        await tab.Page.EvaluateAsync("document.fonts.ready.then(() => true)");
        await NextFrameAsync(tab);

        Assert.Contains(sent, request => request.Url.EndsWith(".woff2", StringComparison.Ordinal));
        Assert.Equal(0, await tab.Page.EvaluateAsync<double>("window.moved ?? 0"));
        Assert.All(sent, request => Assert.StartsWith(site.Address.ToString(), request.Url, StringComparison.Ordinal));
        if (path == "/") // the others are as long as what other tests put into them
        {
            var sizes = await Task.WhenAll(sent.Select(request => request.SizesAsync()));
            Assert.InRange(sizes.Sum(s => s.ResponseBodySize + s.ResponseHeadersSize), 1, MostBytesOfFirstPage);
        }
    }

    private static Task<bool> NextFrameAsync(Tab tab) => tab.Page.EvaluateAsync<bool>("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))");
}
