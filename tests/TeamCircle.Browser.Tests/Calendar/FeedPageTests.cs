using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Calendar;

/// <summary>The page of one's own feed in a real browser: made, shown once, ended.</summary>
public sealed class FeedPageTests(PortalSite site)
{
    [Fact]
    public async Task Address_is_made_shown_once_and_ended_on_a_page_that_everybody_can_use()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Tomasz, "/account/feed");
        await tab.AssertAccessibleAsync();

        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "Make an address" }).ClickAsync();
        await Assertions.Expect(tab.Page.Locator(".shown-link code")).ToContainTextAsync("/feed/");
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("feed-made");
        await tab.AssertFitsAsync(320);

        await tab.Page.GotoAsync("/account/feed");
        await Assertions.Expect(tab.Page.Locator(".shown-link")).ToHaveCountAsync(0);
        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "End the address" }).ClickAsync();
        await Assertions.Expect(tab.Page.Locator("main")).ToContainTextAsync("There is no address yet.");
        tab.AssertNoComplaints();
    }
}
