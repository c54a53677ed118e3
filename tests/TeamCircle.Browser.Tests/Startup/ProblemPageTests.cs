using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Startup;

public sealed class ProblemPageTests(PortalSite site)
{
    [Fact]
    public async Task Unknown_page_says_so_in_words_and_is_accessible()
    {
        await using var tab = await site.OpenAsync("/nowhere");
        tab.Allow("status of 404");

        Assert.Equal("There is no such page", await tab.Page.Locator("h1").InnerTextAsync());
        await tab.AssertAccessibleAsync();
        await tab.AssertFitsAsync(Tab.Phone);
        await tab.PictureAsync("no-such-page");
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Content_that_the_policy_blocks_is_a_complaint()
    {
        await using var tab = await site.OpenAsync("/problem/404");
        tab.Allow("status of 404");

        await tab.Page.EvaluateAsync("document.body.append(Object.assign(document.createElement('script'), { textContent: '1' }))");
        await tab.Page.EvaluateAsync("() => new Promise(done => setTimeout(done, 0))");

        Assert.Throws<Xunit.Sdk.EmptyException>(tab.AssertNoComplaints);
    }
}
