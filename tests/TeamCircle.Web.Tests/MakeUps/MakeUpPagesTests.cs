using System.Net;
using System.Text.Json;
using AngleSharp.Html.Dom;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Pages.MakeUps;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.MakeUps;

/// <summary>Friday 2 October: seven weeks of a service with 60 minutes a week have begun. Each test has a service of its own.</summary>
[Collection(nameof(SearchProcess))] // one of whose tests ends all searches of this process
public sealed class MakeUpPagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task<string> NewServiceAsync(int? provider = null)
    {
        var service = await portal.Team.ServiceAsync(portal.Team.Wren, Discipline.OccupationalTherapy, provider ?? portal.Team.Bram);
        return $"/make-up-visits?service={service.Id}";
    }

    private static async Task<IHtmlDocument> PageAsync(HttpClient browser, string path) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop));

    private Task<List<VisitRow>> VisitsAsync(string path)
    {
        var service = int.Parse(path.Split('=')[1], System.Globalization.CultureInfo.InvariantCulture);
        return portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Visits.Where(v => v.ServiceId == service).ToListAsync());
    }

    private static Task<FilledForm> FirstVisitAsync(HttpClient browser, string path) => FilledForm.OpenAsync(browser, path, "#proposal-1 form");

    private static async Task<FilledForm> SendAsync(FilledForm form, HttpClient browser, string path, string handler)
    {
        using var answer = await form.SendAsync(handler);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal(path, answer.Headers.Location!.OriginalString, ignoreCase: true);
        return await FilledForm.OpenAsync(browser, path);
    }

    private static async Task WaitUntilOverAsync(HttpClient browser)
    {
        using var soon = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(50));
        while (true)
        {
            var progress = await browser.GetStringAsync(new Uri("/make-up-visits?handler=Progress", UriKind.Relative), soon.Token);
            Assert.DoesNotContain("Wren", progress, StringComparison.Ordinal);
            using var json = JsonDocument.Parse(progress);
            if (json.RootElement.GetProperty("isOver").GetBoolean())
                return;
            await pace.WaitForNextTickAsync(soon.Token);
        }
    }

    [Fact]
    public async Task Case_manager_sees_at_once_what_lacks_and_a_proposal_and_accepts_a_visit()
    {
        var (browser, path) = (await portal.BrowserAsync("marisol"), await NewServiceAsync());
        var page = await PageAsync(browser, path);

        Assert.Contains("420 minutes for which no visit is planned", page.Part("What is lacking").Text("p"), StringComparison.Ordinal);
        Assert.Contains("No working hours are entered for Bram Nakamura: 8:00 am to 4:00 pm is assumed.", page.Part("What is lacking").Texts(".note"));
        Assert.Contains("Everything that lacks is made up.", page.Part("Proposal 1").Texts(".margin p"));
        Assert.Equal(7, page.Part("Proposal 1").QuerySelectorAll("form").Length);

        var after = await SendAsync(await FirstVisitAsync(browser, path), browser, path, "Accept");

        var visit = Assert.Single(await VisitsAsync(path));
        Assert.Equal((portal.Team.Bram, 60, VisitState.Planned), (visit.ProviderId, visit.Minutes, visit.State));
        Assert.Contains("360 minutes for which no visit is planned", after.Words, StringComparison.Ordinal);
        Assert.Equal(6, after.Page.Part("Proposal 1").QuerySelectorAll("form").Length);
    }

    [Fact]
    public async Task Search_shows_up_to_three_proposals_and_keeps_what_was_accepted_in_sight()
    {
        var (browser, path) = (await portal.BrowserAsync("marisol"), await NewServiceAsync(portal.Team.Odalys));
        using var begun = await (await FilledForm.OpenAsync(browser, path)).SendAsync("Search");
        Assert.Equal(HttpStatusCode.Redirect, begun.StatusCode);
        await WaitUntilOverAsync(browser);

        var page = await PageAsync(browser, path);
        Assert.Contains("The search is over", page.Text("#search [role=status]"), StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("[data-search]")); // nothing to wait for
        Assert.InRange(page.QuerySelectorAll("[id^=proposal-]").Length, 2, 3);
        Assert.Contains("7 visits, proven to be the fewest possible.", page.Part("Proposal 1").Texts(".margin p"));
        var after = await SendAsync(await FirstVisitAsync(browser, path), browser, path, "Accept");

        Assert.Single(after.Page.Part("Proposal 1").Texts(".then"), "on the calendar");
    }

    [Fact]
    public async Task Search_can_be_stopped_and_keeps_the_best_so_far()
    {
        var (browser, path) = (await portal.BrowserAsync("odalys"), await NewServiceAsync(portal.Team.Odalys));
        using var begun = await (await FilledForm.OpenAsync(browser, path)).SendAsync("Search");

        var stopped = await SendAsync(await FilledForm.OpenAsync(browser, path), browser, path, "Stop");
        await WaitUntilOverAsync(browser);

        Assert.Contains("Everything that lacks is made up.", stopped.Words, StringComparison.Ordinal);
        Assert.Contains("Look again", (await PageAsync(browser, path)).Text("#search"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refused_visit_is_not_proposed_until_all_are_allowed_again()
    {
        var (browser, path) = (await portal.BrowserAsync("bram"), await NewServiceAsync());
        var first = await FirstVisitAsync(browser, path);
        var (window, day) = (first["Input.Window"], first["Input.OnDay"]);

        var without = await SendAsync(first, browser, path, "Refuse");

        Assert.DoesNotContain((window, day), Proposed(without.Page));
        var again = await SendAsync(without, browser, path, "All");
        Assert.Contains((window, day), Proposed(again.Page));
    }

    [Fact]
    public async Task Time_that_was_taken_meanwhile_is_refused_in_words()
    {
        var (browser, path) = (await portal.BrowserAsync("marisol"), await NewServiceAsync());
        var form = await FirstVisitAsync(browser, path);
        var jonah = await portal.Team.ServiceAsync(portal.Team.Jonah, Discipline.OccupationalTherapy, portal.Team.Bram);
        var taken = NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(form["Input.Start"]!).Value;
        await portal.Team.VisitAsync(jonah, portal.Team.Bram, NodaTime.Text.LocalDatePattern.Iso.Parse(form["Input.OnDay"]!).Value, taken, 30);

        using var refused = await form.SendAsync("Accept");

        Assert.Equal(HttpStatusCode.OK, refused.StatusCode);
        var page = FilledForm.Parse(await refused.Content.ReadAsStringAsync(Stop));
        Assert.Contains("That time is no longer free", page.Text("[role=alert]"), StringComparison.Ordinal);
        Assert.Empty(await VisitsAsync(path));
    }

    [Fact]
    public async Task Provider_plans_for_themselves_and_nobody_for_a_learner_of_others()
    {
        var path = await NewServiceAsync(portal.Team.Odalys);
        var form = await FirstVisitAsync(await portal.BrowserAsync("odalys"), path);
        var bram = await portal.BrowserAsync("bram");

        Assert.Contains("Nothing lacks that you may plan", (await PageAsync(bram, path)).Text("main"), StringComparison.Ordinal);
        using var accepted = await bram.SendFormAsync("/make-up-visits?handler=Accept", Fields(form), "/visits/new/log");
        Assert.Equal(HttpStatusCode.NotFound, accepted.StatusCode);
        using var family = await (await portal.BrowserAsync("ines")).GetAsync(new Uri(path, UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, family.StatusCode);
        Assert.Empty(await VisitsAsync(path));
    }

    [Fact]
    public async Task Working_caseload_and_learner_lead_to_the_proposals()
    {
        var path = await NewServiceAsync(portal.Team.Odalys);
        var (marisol, bram) = (await portal.BrowserAsync("marisol"), await portal.BrowserAsync("bram"));
        var working = path.Replace("/make-up-visits?service=", "/audit/services/", StringComparison.Ordinal);

        Assert.Equal($"{path}&period={portal.Team.Period.Id}", (await PageAsync(marisol, working)).QuerySelector("a[href^='/make-up-visits']")?.GetAttribute("href"));
        Assert.Null((await PageAsync(bram, working)).QuerySelector("a[href^='/make-up-visits']"));
        Assert.NotNull((await PageAsync(marisol, "/audit")).QuerySelector($"a[href='{path}&period={portal.Team.Period.Id}']"));
        Assert.NotNull((await PageAsync(bram, "/caseload")).QuerySelector("a[href='/make-up-visits']"));
        var learner = await PageAsync(marisol, $"/learners/{portal.Team.Wren}");
        Assert.NotNull(learner.QuerySelector($"a[href='/make-up-visits?learner={portal.Team.Wren}']"));
        Assert.Contains("All services together", learner.Part("Plan and services").Text(".margin"), StringComparison.Ordinal);
    }

    private static List<(string?, string?)> Proposed(IHtmlDocument page) => [.. page.QuerySelectorAll("#proposal-1 form").Cast<IHtmlFormElement>()
        .Select(f => (Field(f, "Input.Window"), Field(f, "Input.OnDay")))];

    private static string? Field(IHtmlFormElement form, string name) => form.QuerySelector($"[name='{name}']")?.GetAttribute("value");

    private static Dictionary<string, string> Fields(FilledForm form) =>
        new[] { "Input.Service", "Input.Window", "Input.Provider", "Input.OnDay", "Input.Start", "Input.Minutes", "operation" }.ToDictionary(n => n, n => form[n]!);
}
