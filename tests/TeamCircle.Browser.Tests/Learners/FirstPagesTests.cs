using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Data.People;

namespace TeamCircle.Browser.Tests.Learners;

/// <summary>The pages that people see first, in a real browser: accessible, nothing blocked, nothing wider than a phone.</summary>
public sealed class FirstPagesTests(PortalSite site)
{
    public static TheoryData<string, string, string> Pages => new()
    {
        { "today-provider", "Odalys", "/" },
        { "today-manager", "Marisol", "/" },
        { "caseload", "Marisol", "/caseload" },
        { "learner", "Marisol", "/learners/{wren}" },
        { "teach", "Priya", "/learners/{wren}/teach/Position" },
        { "access", "Marisol", "/learners/{wren}/access" },
        { "family", "Ines", "/family/{wren}" },
    };

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_is_accessible_in_light_and_dark_and_fits_a_narrow_screen(string name, string who, string path)
    {
        await using var tab = await site.OpenAsync(Person(who), path.Replace("{wren}", $"{site.Portal.Team.Wren.Id}", StringComparison.Ordinal));

        Assert.Equal(1, await tab.Page.Locator("h1").CountAsync());
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync(name);
        await tab.AssertFitsAsync(320);
        tab.AssertNoComplaints();
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Everything_to_press_is_large_enough_and_shows_where_the_focus_is(string name, string who, string path)
    {
        await using var tab = await site.OpenAsync(Person(who), path.Replace("{wren}", $"{site.Portal.Team.Wren.Id}", StringComparison.Ordinal), Tab.Phone);

        var small = await tab.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
              .filter(e => e.getClientRects().length && !e.closest('.skip') && !e.matches('.skip'))
              .map(e => [e, e.getBoundingClientRect()])
              .filter(([e, r]) => r.height < (e.matches('.act, button, input, select, textarea, summary') && !e.matches('[type=checkbox], [type=radio]') ? 44 : 24) - 0.5)
              .map(([e, r]) => `${Math.round(r.width)}x${Math.round(r.height)} ${e.outerHTML.slice(0, 80)}`)
            """);
        Assert.True(small.Length == 0, $"{name}: {string.Join('\n', small)}");

        await tab.Page.Keyboard.PressAsync("Tab");
        Assert.Equal("Skip to the page", await tab.Page.EvaluateAsync<string>("document.activeElement.textContent"));
        Assert.True(await tab.Page.EvaluateAsync<bool>("document.activeElement.getBoundingClientRect().top >= 0"));
        Assert.NotEqual("none", await tab.Page.EvaluateAsync<string>("getComputedStyle(document.activeElement).outlineStyle"));
    }

    [Fact]
    public async Task Text_at_twice_the_size_and_wider_spacing_hides_nothing()
    {
        await using var tab = await site.OpenAsync(Person("Marisol"), "/caseload");

        await tab.Page.EvaluateAsync("document.documentElement.classList.add('test-spacing')");
        await tab.Page.EvaluateAsync(
            """
            () => { const sheet = new CSSStyleSheet();
              sheet.replaceSync('html { font-size: 212% } * { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-block-end: 2em !important }');
              document.adoptedStyleSheets = [sheet]; }
            """);

        await tab.AssertFitsAsync(Tab.Desk);
        var cut = await tab.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('main *')].filter(e => !e.closest('.unseen, .scroller') && getComputedStyle(e).overflow !== 'visible' && e.scrollWidth > e.clientWidth + 1)
              .map(e => e.outerHTML.slice(0, 80))
            """);
        Assert.Empty(cut);
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Family_page_prints_on_one_sheet()
    {
        await using var tab = await site.OpenAsync(Person("Ines"), $"/family/{site.Portal.Team.Wren.Id}");

        await tab.AssertOneSheetAsync("Letter");

        await tab.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await tab.Page.SetViewportSizeAsync(718, 958); // a Letter sheet less its margins, in CSS pixels
        await tab.PictureAsItIsAsync("family-print");
    }

    private PersonRow Person(string name)
    {
        var team = site.Portal.Team;
        return new[] { team.Odalys, team.Bram, team.Priya, team.Tomasz, team.Marisol, team.Ines, team.Dele }
            .Single(p => p.Name.StartsWith(name, StringComparison.Ordinal));
    }
}
