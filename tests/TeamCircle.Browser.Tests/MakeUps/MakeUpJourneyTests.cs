using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Browser.Tests.Sessions;

namespace TeamCircle.Browser.Tests.MakeUps;

/// <summary>From what lacks to a visit on the calendar: nothing was given to this learner since August.</summary>
public sealed class MakeUpJourneyTests(PortalSite site)
{
    private static PageGetByRoleOptions Named(string name) => new() { Name = name };

    [Fact]
    public async Task Provider_looks_for_visits_waits_for_better_ones_and_accepts_one()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        await using var tab = await site.OpenAsync(site.Portal.Team.Tomasz, $"/audit/services/{learner.Service.Id}");
        await tab.Page.GetByRole(AriaRole.Link, Named("How can this be made up?")).ClickAsync();
        await tab.Page.WaitForURLAsync($"**/make-up-visits?service={learner.Service.Id}&period=*");
        await tab.AssertAccessibleAsync();

        await tab.Page.GetByRole(AriaRole.Button, Named("Look for better ones")).ClickAsync();
        // the script asks how far it is and shows the result by itself; a busy machine takes its time
        await Assertions.Expect(tab.Page.Locator("#search [role=status]")).ToContainTextAsync("The search is over", new() { Timeout = 180_000 });
        Assert.True(await tab.Page.Locator("[id^=proposal-]").CountAsync() > 1);
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("make-up-visits");
        await tab.AssertFitsAsync(320);

        await tab.Page.Locator("#proposal-1").GetByRole(AriaRole.Button).Filter(new() { HasText = "Accept" }).First.ClickAsync();
        await Assertions.Expect(tab.Page.Locator(".done")).ToContainTextAsync("On the calendar");
        await Assertions.Expect(tab.Page.Locator("#proposal-1 .then").First).ToHaveTextAsync("on the calendar");
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Page_without_scripts_shows_how_far_the_search_is()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        await using var tab = await site.OpenAsync(site.Portal.Team.Tomasz, $"/make-up-visits?learner={learner.Learner.Id}", Tab.Phone);
        await tab.Page.RouteAsync("**/js/make-ups*.js", route => route.FulfillAsync(new() { ContentType = "text/javascript", Body = "" }));

        await tab.Page.GetByRole(AriaRole.Button, Named("Look for better ones")).ClickAsync();
        await Assertions.Expect(tab.Page.Locator("#search [role=status]")).Not.ToBeEmptyAsync();
        var again = tab.Page.GetByRole(AriaRole.Link, Named("See how far it is"));
        if (await again.CountAsync() > 0)
            await again.ClickAsync();

        await Assertions.Expect(tab.Page.Locator("#proposal-1 h2")).ToHaveTextAsync("Proposal 1");
    }
}
