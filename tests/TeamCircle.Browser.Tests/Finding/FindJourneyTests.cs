using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Finding;

/// <summary>From any page to what is looked for, and back, with keys alone.</summary>
public sealed class FindJourneyTests(PortalSite site)
{
    [Fact]
    public async Task Somebody_finds_a_learner_by_keys_goes_back_to_what_was_found_and_sees_the_list_of_keys()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Odalys, "/caseload");
        var page = tab.Page;
        await page.Keyboard.PressAsync("/");
        await page.Keyboard.TypeAsync("wern"); // in a field "/" and "?" are letters like others
        await page.Keyboard.PressAsync("Enter");
        var learner = page.GetByRole(AriaRole.Link, new() { Name = site.Portal.Team.Wren.Name, Exact = true });
        await learner.WaitForAsync();
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("find");

        await learner.ClickAsync();
        await page.WaitForURLAsync($"**/learners/{site.Portal.Team.Wren.Id}");
        await page.GoBackAsync();

        Assert.Equal("wern", await page.GetByRole(AriaRole.Searchbox).InputValueAsync());
        await learner.WaitForAsync();

        await page.GetByRole(AriaRole.Heading, new() { Level = 1 }).ClickAsync();
        await page.Keyboard.PressAsync("?");
        await page.GetByRole(AriaRole.Dialog, new() { Name = "Keys" }).WaitForAsync();
        await tab.AssertAccessibleAsync();
        await page.Keyboard.PressAsync("Escape");
        await page.GetByRole(AriaRole.Dialog).WaitForAsync(new() { State = WaitForSelectorState.Detached });
        await tab.AssertFitsAsync(Tab.Phone);
        Assert.True(await page.GetByRole(AriaRole.Link, new() { Name = "Find", Exact = true }).IsVisibleAsync());
        tab.AssertNoComplaints();
    }
}
