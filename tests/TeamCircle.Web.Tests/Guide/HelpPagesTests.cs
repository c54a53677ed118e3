using System.Net;

namespace TeamCircle.Web.Tests.Guide;

/// <summary>Help in the portal: one's own part first, families in their own words, figures that follow what a reader types.</summary>
public sealed class HelpPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    [Fact]
    public async Task Provider_finds_their_own_guide_first_and_the_others_below()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, "/help");

        Assert.Equal("For providers", page.Text("section h2"));
        Assert.Contains("Log a visit", page.Part("For providers").Texts("a"));
        Assert.Contains("For case managers", page.Part("What others do").Texts("a"));
    }

    [Fact]
    public async Task Guide_shows_its_tasks_with_pictures_from_here_and_no_link_that_leads_nowhere()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, "/help/provider");
        var pictures = page.QuerySelectorAll(".guide img").Select(i => i.GetAttribute("src")!).ToList();
        var browser = await portal.BrowserAsync(portal.Team.Odalys);

        Assert.NotNull(page.QuerySelector("#log-a-visit"));
        Assert.NotEmpty(pictures);
        Assert.All(page.QuerySelectorAll(".guide a"), a => Assert.StartsWith("/help", a.GetAttribute("href"), StringComparison.Ordinal));
        foreach (var picture in pictures)
        {
            using var answer = await browser.GetAsync(new Uri(picture, UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.Equal((HttpStatusCode.OK, "image/png"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
        }
    }

    [Fact]
    public async Task Foot_of_a_page_leads_to_the_task_that_is_done_there()
    {
        var audit = await portal.PageAsync(portal.Team.Marisol, "/audit");
        var family = await portal.PageAsync(portal.Team.Ines, $"/family/{portal.Team.Wren.Id}");

        Assert.Equal("/help/case-manager#read-the-audit", audit.QuerySelector("footer a")?.GetAttribute("href"));
        Assert.Equal(["Help"], family.Texts("footer a"));
    }

    [Fact]
    public async Task Family_reads_its_own_guide_and_no_other()
    {
        var browser = await portal.BrowserAsync(portal.Team.Ines);
        using var staff = await browser.GetAsync(new Uri("/help/provider", UriKind.Relative), TestContext.Current.CancellationToken);
        var own = await portal.PageAsync(portal.Team.Ines, "/help?in=en");

        Assert.Equal(HttpStatusCode.NotFound, staff.StatusCode);
        Assert.Equal("Help for families", own.Text("h1"));
        Assert.DoesNotContain("For providers", own.Texts("a"));
    }

    [Theory]
    [InlineData("", "to make up")]
    [InlineData("?Count.MakeUp=30&Count.Given=60+60+60+30+60+60+60&Count.Planned=60+60", "on course")]
    public async Task Count_example_follows_what_a_reader_types(string numbers, string status)
    {
        var page = await portal.PageAsync(portal.Team.Odalys, "/help/figures" + numbers);

        Assert.Equal(status, page.Text(".sum .status"));
    }

    [Fact]
    public async Task Example_that_cannot_be_worked_out_says_what_to_mend_and_the_others_stay()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, "/help/figures?Wait.Times=soon&Wait.Within=10");

        Assert.StartsWith("Give seconds up to 600", page.Text(".problem"), StringComparison.Ordinal);
        Assert.Equal(6, page.QuerySelectorAll(".sum").Length);
    }
}
