using Microsoft.EntityFrameworkCore;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Progress;

/// <summary>A goal's chart in a real browser: drawn from the table on its page, reachable by key, black on white on paper.</summary>
public sealed class GoalChartTests(PortalSite site)
{
    private const string Drawn = "() => Chart.getChart(document.querySelector('canvas')).data.datasets[0].data.map(p => p.y).join()";
    private const string Written = "() => [...document.querySelectorAll('[data-point] data')].map(d => Number(d.value)).join()";
    private const string Ink = "() => Chart.getChart(document.querySelector('canvas')).options.color";

    private async Task<Tab> OpenAsync(int width = Tab.Desk)
    {
        var agency = site.Portal.Agency;
        var goal = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Goals.Where(g => g.LearnerId == site.Portal.Team.Wren.Id && g.Area == "Communication").Select(g => g.Id).SingleAsync());
        var tab = await site.OpenAsync(site.Portal.Team.Odalys, $"/goals/{goal}", width);
        await tab.Page.WaitForFunctionAsync("() => globalThis.Chart?.getChart(document.querySelector('canvas'))");
        return tab;
    }

    [Fact]
    public async Task Chart_has_the_numbers_of_the_table_and_a_link_before_it_leads_there()
    {
        await using var tab = await OpenAsync();

        Assert.NotEmpty(await tab.Page.EvaluateAsync<string>(Written));
        Assert.Equal(
            (await tab.Page.EvaluateAsync<string>(Written)).Split(',').Order(), (await tab.Page.EvaluateAsync<string>(Drawn)).Split(',').Order());
        await tab.Page.GetByText("The same numbers as a table").FocusAsync();
        await tab.Page.Keyboard.PressAsync("Enter");
        Assert.Equal("numbers", await tab.Page.EvaluateAsync<string>("document.activeElement.id"));
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Chart_takes_the_ink_of_the_readers_scheme_and_black_on_paper()
    {
        await using var tab = await OpenAsync(Tab.Phone);
        var light = await tab.Page.EvaluateAsync<string>(Ink);
        await tab.Page.EmulateMediaAsync(new() { ColorScheme = Microsoft.Playwright.ColorScheme.Dark });
        await tab.Page.WaitForFunctionAsync($"light => ({Ink})() !== light", light);

        await tab.Page.EvaluateAsync("dispatchEvent(new Event('beforeprint'))");

        Assert.Equal("#000", await tab.Page.EvaluateAsync<string>(Ink));
        await tab.Page.EvaluateAsync("dispatchEvent(new Event('afterprint'))");
        Assert.NotEqual("#000", await tab.Page.EvaluateAsync<string>(Ink));
        await tab.AssertFitsAsync(320);
        tab.AssertNoComplaints();
    }
}
