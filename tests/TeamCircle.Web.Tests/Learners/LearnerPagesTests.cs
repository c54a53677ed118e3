using System.Net;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Data.History;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Learners;

/// <summary>Caseload, learner's page, how we teach and the record of access, over HTTP by role.</summary>
public sealed class LearnerPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Wren => $"/learners/{portal.Team.Wren.Id}";

    [Fact]
    public async Task Caseload_has_the_learners_of_ones_teams_and_no_others()
    {
        var page = await portal.PageAsync(portal.Team.Bram, "/caseload");

        Assert.Equal(["Sefa Lautele", "Wren Belmares"], page.Texts("section .margin h2"));
    }

    [Fact]
    public async Task Caseload_puts_services_with_nobody_assigned_first()
    {
        var page = await portal.PageAsync(portal.Team.Marisol, "/caseload");

        Assert.Equal("Nobody assigned", page.Texts("section.part h2")[0]);
        Assert.StartsWith("Wren Belmares: speech-language Nobody named since 17 August", Assert.Single(page.Part("Nobody assigned").Texts(".what")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Caseload_shows_each_status_in_words_with_the_figures_that_it_comes_from()
    {
        var page = await portal.PageAsync(portal.Team.Marisol, "/caseload");
        var lines = page.Part("Wren Belmares").QuerySelectorAll(".lines > li:not(.axis)");
        string Line(string name) => lines.Single(l => l.Text(".name").StartsWith(name, StringComparison.Ordinal)).Text(".stands");

        Assert.Equal("to make up 300 of 348 minutes due so far about 71 minutes would still lack as planned; 11 of the last 11 visits took place", Line("Vision"));
        Assert.Equal("on course; 45 decided not owed 216 of 216 minutes due so far 27 % likely as planned; 5 of the last 8 visits took place", Line("Occupational therapy"));
        Assert.Equal("below pace 60 given, 78 minutes would keep pace, 480 in all", Line("Parent counseling"));
        Assert.Equal("to make up 0 of 6 probes due so far", Line("Probes: hands"));
    }

    [Fact]
    public async Task Caseload_narrowed_to_a_discipline_and_a_person_shows_only_theirs()
    {
        var vision = await portal.PageAsync(portal.Team.Marisol, "/caseload?Discipline=Vision");
        var priya = await portal.PageAsync(portal.Team.Marisol, $"/caseload?Person={portal.Team.Priya.Id}");
        var nothing = await portal.PageAsync(portal.Team.Marisol, "/caseload?Status=Met&Discipline=SpeechLanguage");

        Assert.All(vision.QuerySelectorAll(".lines > li:not(.axis) .name"), n => Assert.StartsWith("Vision", n.TextContent.Trim(), StringComparison.Ordinal));
        Assert.All(priya.Texts(".lines > li:not(.axis) .name .aside"), who => Assert.Equal("Priya Lindqvist", who));
        Assert.Contains("No service or goal on your caseload matches", nothing.Text("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Learner_page_shows_the_plan_as_written_beside_our_reading()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, Wren);
        var vision = page.QuerySelectorAll("article.line").First(a => a.Text("h3") == "Vision");

        Assert.Equal("Specially designed instruction in vision: two sessions of 30 minutes weekly, in the home.", vision.Text(".quote"));
        Assert.Contains("60 minutes a week in 2 sessions, individual, at home", vision.Text("dl"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Goal_probed_by_each_owner_says_whose_rail_is_whose()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, Wren);
        var goal = page.QuerySelectorAll("article.line").First(a => a.Text("h3") == "Communication");

        Assert.Equal(["Marisol Quenby:", "Odalys Ferreira:"], goal.Texts(".line-rail .aside").Order());
    }

    [Fact]
    public async Task Learner_page_has_a_strip_for_each_goal_with_data_and_names_those_that_nobody_probed()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, Wren);
        var goals = page.QuerySelectorAll("#goals article.line");

        Assert.Contains("probes; the latest on", goals.Single(a => a.Text("h3") == "Communication").Text(".line-rail a"), StringComparison.Ordinal);
        Assert.NotNull(goals.Single(a => a.Text("h3") == "Communication").QuerySelector("svg circle.dot"));
        Assert.Null(goals.Single(a => a.Text("h3") == "Hands").QuerySelector("svg circle.dot[r='2.25']"));
        Assert.Equal("Nobody has probed in this reporting period: Hands.", page.Texts("#goals .margin p")[0]);
    }

    [Fact]
    public async Task Learner_page_says_what_changed_since_ones_last_visit() =>
        Assert.StartsWith("What others did from ", (await portal.PageAsync(portal.Team.Odalys, Wren)).Text("#since .margin p"), StringComparison.Ordinal);

    [Fact]
    public async Task Learner_page_names_nobody_in_its_title_or_address()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, Wren);

        Assert.DoesNotContain("Wren", page.Title, StringComparison.Ordinal);
        Assert.All(page.QuerySelectorAll("a[href]"), a => Assert.DoesNotContain("wren", a.GetAttribute("href")!, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task Part_of_how_we_teach_is_edited_by_the_discipline_that_owns_it()
    {
        var page = await portal.PageAsync(portal.Team.Odalys, Wren);
        var manager = await portal.PageAsync(portal.Team.Marisol, Wren);

        Assert.Equal([$"{Wren}/teach/ShowingThings"], page.QuerySelectorAll(".teach-part a[href*='/teach/']").Select(a => a.GetAttribute("href")));
        Assert.DoesNotContain($"{Wren}/teach/Position", manager.QuerySelectorAll(".teach-part a").Select(a => a.GetAttribute("href")));
        Assert.Contains($"{Wren}/teach/Cautions", manager.QuerySelectorAll(".teach-part a").Select(a => a.GetAttribute("href")));
    }

    [Fact]
    public async Task Part_that_another_discipline_owns_is_not_there_to_edit()
    {
        var browser = await portal.BrowserAsync(portal.Team.Odalys);

        using var shown = await browser.GetAsync($"{Wren}/teach/Position", Stop);
        using var sent = await browser.SendFormAsync($"{Wren}/teach/Position", TextOf("Mine now.", 1), tokenFrom: $"{Wren}/teach/ShowingThings");

        Assert.Equal(HttpStatusCode.NotFound, shown.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, sent.StatusCode);
        Assert.DoesNotContain("Mine now.", await TextInStoreAsync(TeachPart.Position), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("99")]
    [InlineData("Stage")]
    public async Task Part_that_there_is_none_of_is_no_page(string part)
    {
        using var answer = await (await portal.BrowserAsync(portal.Team.Odalys)).GetAsync($"{Wren}/teach/{part}", Stop);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task Loser_of_a_race_sees_both_versions_and_may_save_again()
    {
        var browser = await portal.BrowserAsync(portal.Team.Bram);
        var path = $"{Wren}/teach/Hands";
        (await browser.SendFormAsync(path, TextOf("Open hand, palm down.", 0))).Dispose();

        using var lost = await browser.SendFormAsync(path, TextOf("Support under the elbow.", 0));

        var both = await lost.Content.ReadAsStringAsync(Stop);
        Assert.Equal(HttpStatusCode.Conflict, lost.StatusCode);
        Assert.Contains("Open hand, palm down.", both, StringComparison.Ordinal);
        Assert.Contains("Support under the elbow.", both, StringComparison.Ordinal);
        using var chosen = await browser.SendFormAsync(path, TextOf("Support under the elbow.", 1));
        Assert.Equal(HttpStatusCode.Redirect, chosen.StatusCode);
        Assert.Equal("Support under the elbow.", await TextInStoreAsync(TeachPart.Hands));
    }

    [Fact]
    public async Task Empty_part_is_refused_in_words_and_nothing_is_saved()
    {
        var browser = await portal.BrowserAsync(portal.Team.Tomasz);

        using var answer = await browser.SendFormAsync($"{Wren}/teach/Switch", TextOf("", 0));

        Assert.Contains("Write what everybody on the team should do.", await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        Assert.Equal("", await TextInStoreAsync(TeachPart.Switch));
    }

    [Fact]
    public async Task Record_of_access_names_who_looked_at_what_for_the_case_manager_only()
    {
        (await portal.PageAsync(portal.Team.Priya, Wren)).Dispose();
        var page = await portal.PageAsync(portal.Team.Marisol, $"{Wren}/access");
        using var refused = await (await portal.BrowserAsync(portal.Team.Priya)).GetAsync($"{Wren}/access", Stop);

        Assert.Contains(page.QuerySelectorAll("tbody tr"), r =>
            r.Text("th") == "Priya Lindqvist" && r.TextContent.Contains("Learner's page", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.NotFound, refused.StatusCode);
    }

    [Fact]
    public async Task Record_of_access_prints_whole_on_one_page_where_it_is_asked_for()
    {
        for (var i = 0; i <= ReadAccess.PageLength; i++)
            await portal.Agency.AddAsync(new AccessRow { At = Instant.FromUtc(2026, 9, 1, 12, 0), PersonId = portal.Team.Priya.Id, Ground = "team", Page = "GET /Learners/Learner", LearnerIds = [portal.Team.Wren.Id] });

        var page = await portal.PageAsync(portal.Team.Marisol, $"{Wren}/access");
        var whole = await portal.PageAsync(portal.Team.Marisol, page.QuerySelector("a[href*='all=true']")!.GetAttribute("href")!);

        Assert.Equal(ReadAccess.PageLength, page.QuerySelectorAll("tbody tr").Length);
        Assert.True(whole.QuerySelectorAll("tbody tr").Length > ReadAccess.PageLength + 1);
        Assert.Null(whole.QuerySelector("a[href*='before=']"));
    }

    private static Dictionary<string, string> TextOf(string text, int version) => new()
    {
        ["operation"] = $"{Guid.CreateVersion7()}",
        ["Input.Text"] = text,
        ["Input.Version"] = $"{version}",
    };

    private Task<string> TextInStoreAsync(TeachPart part) => portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, async db =>
        (await db.TeachParts.SingleOrDefaultAsync(p => p.LearnerId == portal.Team.Wren.Id && p.Part == part, Stop))?.Text ?? "");
}
