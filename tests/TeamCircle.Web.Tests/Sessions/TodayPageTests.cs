namespace TeamCircle.Web.Tests.Sessions;

/// <summary>Today: one's own visits in time order, and what waits for whoever looks.</summary>
public sealed class TodayPageTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    [Fact]
    public async Task Own_visits_stand_in_time_order_each_with_its_act()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, "/");

        Assert.Equal("Today, Friday 2 October", page.Text("h1"));
        Assert.Equal(["9:30 to 10:00 am", "1:30 to 2:15 pm"], page.Part("My visits").Texts(".rows .lead"));
        Assert.All(page.Part("My visits").QuerySelectorAll(".rows .then a"), a => Assert.EndsWith("/log", a.GetAttribute("href")!, StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_waits_names_the_visit_that_nobody_logged_and_what_closes_this_week()
    {
        var waits = (await portal.PageAsync(portal.Team.Odalys, "/")).Part("What waits for me");

        Assert.Equal(["1 visit not logged", "Plans to read", "Closing this week with something missing", "Probes due"], waits.Texts("h3"));
        Assert.Contains("30 of 60 minutes not yet given in the week of 28 September; visits are planned for all of it", waits.Texts(".what .aside"));
    }

    [Fact]
    public async Task Undecided_minutes_wait_for_the_case_manager_alone()
    {
        var manager = (await portal.PageAsync(portal.Team.Marisol, "/")).Part("What waits for me");
        var provider = (await portal.PageAsync(portal.Team.Priya, "/")).Part("What waits for me");

        Assert.Contains("Not given, and nobody has decided", manager.Texts("h3"));
        Assert.DoesNotContain("Not given, and nobody has decided", provider.Texts("h3"));
    }

    [Fact]
    public async Task Day_without_visits_says_so_and_names_the_next_act()
    {
        var page = await portal.PageAsync(portal.Team.Dele, "/");

        Assert.Contains("You have no visits today.", page.Part("My visits").Text(".empty"), StringComparison.Ordinal);
        Assert.Contains("Nothing:", page.Part("What waits for me").Text(".empty"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Navigation_shows_each_role_its_own_places()
    {
        async Task<IReadOnlyList<string>> Places(Data.People.PersonRow who, string path) => (await portal.PageAsync(who, path)).Texts("nav.places a, .to-find");

        Assert.Equal(["Today", "Calendar", "Caseload", "Find"], await Places(portal.Team.Bram, "/"));
        Assert.Equal(["Today", "Calendar", "Caseload", "Audit", "Find"], await Places(portal.Team.Marisol, "/"));
        Assert.Equal(["Today", "Calendar", "Caseload", "Audit", "Settings", "Find"], await Places(portal.Team.Dele, "/"));
        Assert.Empty(await Places(portal.Team.Ines, $"/family/{portal.Team.Wren.Id}"));
    }
}
