using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Sessions;

/// <summary>Logging a visit by keyboard and by thumb: how little it takes, counted.</summary>
public sealed class LogVisitTests(PortalSite site)
{
    private const int MostKeys = 6, MostTaps = 4;

    private Task<Tab> AsTomaszAsync(string path, int width = Tab.Desk) => site.OpenAsync(site.Portal.Team.Tomasz, path, width);

    /// <summary>Presses the keys once the page has put the cursor where typing begins, as a person would who looks at it.</summary>
    private static async Task<int> PressAsync(Tab tab, params string[] keys)
    {
        await tab.Page.Locator("input:focus").WaitForAsync();
        foreach (var key in keys)
            await tab.Page.Keyboard.PressAsync(key);
        return keys.Length;
    }

    [Fact]
    public async Task Visit_that_went_as_planned_takes_one_key()
    {
        var visit = await (await TomaszsLearner.AddAsync(site)).VisitAsync(1);
        await using var tab = await AsTomaszAsync($"/visits/{visit.Id}/log");

        var pressed = await PressAsync(tab, "Enter");

        await tab.Page.WaitForURLAsync($"**/visits/{visit.Id}");
        Assert.InRange(pressed, 1, MostKeys);
        Assert.Contains("times from the plan", await tab.Page.InnerTextAsync("main"), StringComparison.Ordinal);
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Visit_with_its_end_typed_takes_four_keys()
    {
        var visit = await (await TomaszsLearner.AddAsync(site)).VisitAsync(2);
        await using var tab = await AsTomaszAsync($"/visits/{visit.Id}/log");

        var pressed = await PressAsync(tab, "9", "3", "5", "Enter");

        await tab.Page.WaitForURLAsync($"**/visits/{visit.Id}");
        Assert.InRange(pressed, 1, MostKeys);
        var page = await tab.Page.InnerTextAsync("main");
        Assert.Contains("35 minutes counted", page, StringComparison.Ordinal);
        Assert.Contains("observed", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Visit_is_logged_from_Today_with_two_taps_of_a_thumb()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        var visit = await learner.VisitAsync(3);
        await using var tab = await AsTomaszAsync("/", Tab.Phone);
        var taps = 0;

        await tab.Page.Locator($"a[href='/visits/{visit.Id}/log']").ClickAsync();
        taps++;
        await tab.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save" }).ClickAsync();
        taps++;

        await tab.Page.WaitForURLAsync($"**/visits/{visit.Id}");
        Assert.InRange(taps, 1, MostTaps);
        Assert.Contains("30 minutes counted", await tab.Page.InnerTextAsync("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Reason_is_asked_only_where_it_applies_and_never_hidden_while_it_has_a_problem()
    {
        var visit = await (await TomaszsLearner.AddAsync(site)).VisitAsync(4);
        await using var tab = await AsTomaszAsync($"/visits/{visit.Id}/log", Tab.Phone);
        var reason = tab.Page.GetByLabel("Reason");

        Assert.False(await reason.IsVisibleAsync());
        await tab.Page.GetByLabel("End", new PageGetByLabelOptions { Exact = true }).FillAsync("9:10");
        Assert.True(await reason.IsVisibleAsync());
        await tab.Page.GetByLabel("Not offered").CheckAsync();
        await tab.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save" }).ClickAsync();

        Assert.Equal("true", await reason.GetAttributeAsync("aria-invalid"));
        Assert.Equal("9:10", await tab.Page.GetByLabel("End", new PageGetByLabelOptions { Exact = true }).InputValueAsync());
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("log-with-problem");
        await reason.SelectOptionAsync("NobodyHome");
        await tab.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save" }).ClickAsync();
        await tab.Page.WaitForURLAsync($"**/visits/{visit.Id}");
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Pages_that_record_are_accessible_in_light_and_dark_and_fit_a_narrow_screen()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        var (planned, logged) = (await learner.VisitAsync(8), await learner.VisitAsync(9));
        await using var tab = await AsTomaszAsync($"/visits/{logged.Id}/log");
        await PressAsync(tab, "Enter");
        await tab.Page.WaitForURLAsync($"**/visits/{logged.Id}");

        foreach (var (name, path) in new[]
        {
            ("log", $"/visits/{planned.Id}/log"), ("log-new", "/visits/new/log"), ("visit", $"/visits/{logged.Id}"),
            ("correct", $"/visits/{logged.Id}/correct"), ("goal", $"/goals/{learner.Goal.Id}"), ("probe", $"/goals/{learner.Goal.Id}/probe"),
        })
        {
            await tab.Page.GotoAsync(path);
            await LookAsync(tab, name);
        }
        await using var manager = await site.OpenAsync(site.Portal.Team.Marisol, $"/audit/services/{learner.Service.Id}/decide?day=2026-09-15");
        await LookAsync(manager, "decide");
    }

    private static async Task LookAsync(Tab tab, string name)
    {
        Assert.Equal(1, await tab.Page.Locator("h1").CountAsync());
        await tab.Page.EvaluateAsync("document.querySelectorAll('main details').forEach(d => d.open = true)");
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync(name);
        await tab.AssertFitsAsync(320);
        await tab.Page.SetViewportSizeAsync(Tab.Desk, 900);
        tab.AssertNoComplaints();
    }
}
