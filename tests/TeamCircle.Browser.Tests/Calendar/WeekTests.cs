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
    public async Task Own_visit_dragged_elsewhere_leads_to_its_change_with_the_new_time_and_Escape_leaves_it()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Odalys, "/calendar?week=2026-10-05");
        var item = tab.Page.Locator(".day[data-day='2026-10-05'] .item[data-move]").First;
        var (box, hour) = ((await item.Locator("a").BoundingBoxAsync())!, await tab.Page.EvaluateAsync<float>("parseFloat(getComputedStyle(document.querySelector('.days')).fontSize) * 9"));
        var next = (await tab.Page.Locator(".day[data-day='2026-10-06'] .dayhead").BoundingBoxAsync())!;
        var address = tab.Page.Url;

        async Task PullAsync()
        {
            await tab.Page.Mouse.MoveAsync(box.X + 40, box.Y + 10);
            await tab.Page.Mouse.DownAsync();
            await tab.Page.Mouse.MoveAsync(next.X + 60, box.Y + 10 + hour, new MouseMoveOptions { Steps = 5 });
        }

        await PullAsync();
        await tab.Page.Keyboard.PressAsync("Escape");
        await tab.Page.Mouse.UpAsync();
        Assert.Equal(address, tab.Page.Url);
        await PullAsync();
        await tab.Page.Mouse.UpAsync();

        await tab.Page.WaitForURLAsync(url => url.Contains("/change?day=2026-10-06&start=10%3A30", StringComparison.Ordinal));
        Assert.Equal("2026-10-06", await tab.Page.Locator("[name='Input.OnDay']").InputValueAsync());
        Assert.Equal("10:30", await tab.Page.Locator("[name='Input.Start']").InputValueAsync());
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Empty_place_takes_the_quarter_hour_that_was_pointed_at_and_its_first_minute_by_keyboard()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Odalys, "/calendar?week=2026-10-05");
        var gap = tab.Page.Locator(".day[data-day='2026-10-06'] .gap a").First;
        var hour = await tab.Page.EvaluateAsync<float>("parseFloat(getComputedStyle(document.querySelector('.days')).fontSize) * 9");

        await gap.EvaluateAsync("link => link.addEventListener('click', e => e.preventDefault())");
        await gap.PressAsync("Enter");
        Assert.EndsWith("day=2026-10-06&start=08:00", (await gap.GetAttributeAsync("href"))!, StringComparison.Ordinal);
        await gap.ClickAsync(new LocatorClickOptions { Position = new Position { X = 20, Y = hour * 1.3f } });
        Assert.EndsWith("day=2026-10-06&start=09%3A15", (await gap.GetAttributeAsync("href"))!, StringComparison.Ordinal);
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
