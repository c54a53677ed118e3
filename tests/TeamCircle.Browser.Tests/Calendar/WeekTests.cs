using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Calendar;

/// <summary>The week in a real browser: timetable, list, paper.</summary>
public sealed class WeekTests(PortalSite site)
{
    private string Wren(string more = "") => $"/calendar?learner={site.Portal.Team.Wren.Id}{more}";

    [Fact]
    public async Task Week_is_accessible_in_light_and_dark_and_fits_a_narrow_screen()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Marisol, Wren());
        foreach (var (name, path) in new[]
        {
            ("week-learner", Wren()), ("week-team", Wren("&team=true")), ("week-own", "/calendar"), ("week-teams", "/calendar?team=true"),
            ("week-next", Wren("&week=2026-10-05")), ("week-closed", Wren("&week=2026-10-12")), ("week-list", Wren("&list=true")),
        })
        {
            await tab.Page.GotoAsync(path);
            Assert.Equal(1, await tab.Page.Locator("h1").CountAsync());
            await tab.AssertAccessibleAsync();
            await tab.PictureAsync(name);
            await tab.AssertFitsAsync(320);
            await tab.Page.SetViewportSizeAsync(Tab.Desk, 900);
        }
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Timetable_shows_where_there_is_room_and_the_list_elsewhere_never_both()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Marisol, Wren());
        var (timetable, list) = (tab.Page.Locator(".timetable"), tab.Page.Locator(".week-list"));

        Assert.Equal((true, false), (await timetable.IsVisibleAsync(), await list.IsVisibleAsync()));
        await tab.Page.SetViewportSizeAsync(Tab.Phone, 900);
        Assert.Equal((false, true), (await timetable.IsVisibleAsync(), await list.IsVisibleAsync()));
        await tab.Page.SetViewportSizeAsync(Tab.Desk, 900);
        await tab.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Show as a list" }).ClickAsync();
        await list.WaitForAsync();
        Assert.Equal(0, await timetable.CountAsync());
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Visits_that_overlap_do_not_cover_each_other()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Marisol, "/calendar?team=true&week=2026-09-28");

        var covered = await tab.Page.EvaluateAsync<string[]>(
            """
            () => {
              const boxes = [...document.querySelectorAll(".timetable .item > .ground")].map(e => [e.parentElement.textContent.trim(), e.getBoundingClientRect()]);
              const meet = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1;
              return boxes.flatMap(([name, a], i) => boxes.slice(i + 1).filter(([, b]) => meet(a, b)).map(([other]) => `${name} | ${other}`));
            }
            """);

        Assert.Empty(covered);
        Assert.NotEqual(0, await tab.Page.Locator(".timetable .item").CountAsync());
    }

    [Fact]
    public async Task Week_prints_on_one_sheet()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Marisol, Wren());

        await tab.Page.SetViewportSizeAsync(718, 958);
        await tab.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await tab.PictureAsItIsAsync("week-paper");
        var paper = await tab.Page.PdfAsync(new PagePdfOptions { PreferCSSPageSize = true });

        Assert.Equal(1, System.Text.Encoding.Latin1.GetString(paper).Split("/Type /Page\n").Length - 1);
    }
}
