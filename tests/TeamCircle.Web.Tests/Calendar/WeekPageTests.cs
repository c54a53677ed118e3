using System.Net;
using AngleSharp.Html.Dom;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Tests.Calendar;

/// <summary>The calendar over HTTP by role; today is Friday 2 October 2026.</summary>
public sealed class WeekPageTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private string Wren(string more = "") => $"/calendar?learner={portal.Team.Wren.Id}{more}";

    private Task<IHtmlDocument> PageAsync(PersonRow person, string path) => portal.PageAsync(person, path);

    private async Task<HttpStatusCode> StatusAsync(PersonRow person, string path)
    {
        using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    [Fact]
    public async Task Own_week_stands_as_a_timetable_and_as_a_list_with_the_same_visits()
    {
        var page = await PageAsync(portal.Team.Odalys, "/calendar");

        Assert.Equal("Calendar: my visits", page.Text("h1"));
        Assert.Equal("28 September to 4 October 2026, this week", page.Text(".head .aside"));
        Assert.Equal(["9:30 to 10:00 am", "9:30 to 10:00 am", "1:30 to 2:15 pm"], page.Texts(".week-list .lead"));
        Assert.Equal(["Wren Belmares, vision", "Wren Belmares, vision", "Jonah Tarrow, vision"], page.Texts(".week-list .what a"));
        Assert.Equal(page.QuerySelectorAll(".week-list .what a").Select(a => a.GetAttribute("href")), page.QuerySelectorAll(".timetable .item a").Select(a => a.GetAttribute("href")));
        Assert.Equal(["given", "planned", "planned"], page.Texts(".week-list .then"));
    }

    [Fact]
    public async Task Bracket_is_open_while_a_visit_is_to_come_and_closed_once_it_is_logged()
    {
        var page = await PageAsync(portal.Team.Marisol, Wren());

        Assert.Contains("given", page.Text(".timetable .item.closed.full"), StringComparison.Ordinal);
        Assert.Contains("not offered: provider in training or meeting", page.Text(".timetable .item.closed:not(.full)"), StringComparison.Ordinal);
        Assert.Equal(["OF 9:30 to 10:00 am Vision , Odalys Ferreira, at home", "MQ 11:00 to 11:45 am Special education , Marisol Quenby, at home"], page.Texts(".timetable .item.open"));
    }

    [Fact]
    public async Task Closed_day_is_shaded_and_named_and_a_make_up_visit_is_called_one()
    {
        var closed = await PageAsync(portal.Team.Marisol, Wren("&week=2026-10-14"));
        var next = await PageAsync(portal.Team.Marisol, Wren("&week=2026-10-05"));

        Assert.Equal("Closed: Staff day", closed.Text(".day[data-day='2026-10-12'] .dayhead p"));
        Assert.Single(closed.QuerySelectorAll(".timetable .shade"));
        Assert.Equal("Closed: Staff day", closed.Text(".week-list .margin p"));
        Assert.Single(next.Texts(".week-list .aside"), words => words == "Bram Nakamura, at home, make-up visit");
        Assert.Single(next.Texts(".timetable .became"), words => words == "make-up visit, planned");
    }

    [Fact]
    public async Task What_is_still_owed_stands_above_the_learners_week_and_leads_to_how_it_was_worked_out()
    {
        var owed = (await PageAsync(portal.Team.Marisol, Wren())).Part("Still owed");
        var link = owed.QuerySelectorAll("li").Single(li => li.Text("strong") == "Vision").QuerySelector("a")!;

        Assert.Equal("30 of 60 minutes not yet given in the week of 28 September; visits are planned for all of it", link.TextContent);
        Assert.StartsWith("/audit/services/", link.GetAttribute("href"), StringComparison.Ordinal);
        Assert.DoesNotContain("Still owed", (await PageAsync(portal.Team.Marisol, "/calendar")).Texts("h2"));
    }

    [Fact]
    public async Task Empty_place_leads_to_a_new_visit_with_learner_day_and_time_filled_in()
    {
        var page = await PageAsync(portal.Team.Marisol, Wren());
        var gaps = page.QuerySelectorAll(".day[data-day='2026-10-02'] .gap a").Select(a => a.GetAttribute("href")).ToList();

        Assert.Equal(["08:00", "10:00", "11:45"], gaps.Select(g => g![^5..]));
        Assert.Equal($"/visits/new?learner={portal.Team.Wren.Id}&day=2026-10-02&start=08:00", gaps[0]);
        Assert.Empty(page.QuerySelectorAll(".day[data-day='2026-10-01'] .gap")); // yesterday
        Assert.Empty((await PageAsync(portal.Team.Marisol, Wren("&team=true"))).QuerySelectorAll(".gap"));
    }

    [Fact]
    public async Task New_visit_begins_with_what_the_empty_place_says()
    {
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/visits/new?learner={portal.Team.Wren.Id}&day=2026-10-06&start=10:15");

        Assert.Equal(("2026-10-06", "10:15"), (form["Input.OnDay"], form["Input.Start"]));
        Assert.StartsWith("Vision, Wren", form.Page.QuerySelector("[name='Input.What'] option[selected]")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Weeks_before_and_after_and_the_list_keep_whose_week_it_is()
    {
        var page = await PageAsync(portal.Team.Marisol, Wren("&week=2026-10-09"));
        var links = page.QuerySelectorAll(".head nav a").Select(a => a.GetAttribute("href")!).ToList();

        Assert.Equal([Wren("&week=2026-09-28"), Wren(), Wren("&week=2026-10-12"), Wren("&week=2026-10-05&list=true")], links);
        Assert.Empty((await PageAsync(portal.Team.Marisol, links[3])).QuerySelectorAll(".timetable"));
        Assert.Equal("28 September to 4 October 2026, this week", (await PageAsync(portal.Team.Marisol, "/calendar?week=soon")).Text(".head .aside"));
    }

    [Fact]
    public async Task Teams_week_never_says_whose_visit_takes_a_colleague()
    {
        var page = await PageAsync(portal.Team.Odalys, Wren("&team=true&list=true"));

        Assert.Contains("Bram Nakamura is taken", page.Texts(".week-list .what"));
        Assert.DoesNotContain("Sefa", page.DocumentElement.OuterHtml, StringComparison.Ordinal);
        Assert.DoesNotContain("TF-033", page.DocumentElement.OuterHtml, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Learner_of_another_team_and_the_family_find_nothing()
    {
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Bram, $"/calendar?learner={portal.Team.Jonah.Id}"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Bram, $"/calendar?learner={portal.Team.Jonah.Id}&team=true"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Bram, "/calendar?learner=99999999"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Ines, Wren()));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Dele, Wren()));
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(portal.Team.Dele, "/calendar"));
    }
}
