using System.Net;
using NodaTime;

namespace TeamCircle.Web.Tests.Commitments;

/// <summary>Wren's vision service owes 60 minutes a week; the weeks of September are past.</summary>
public sealed class DecidePagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Address(int day) => $"/audit/services/{portal.Team.Vision.Id}/decide?day=2026-09-{day:00}";

    private static async Task<string> MainAsync(HttpClient browser, string path) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop)).QuerySelector("main")!.TextContent;

    private async Task MissAsync(int day, string reason)
    {
        var (visit, browser) = (await portal.Team.VisitAsync(day: new LocalDate(2026, 9, day), minutes: 30), await portal.BrowserAsync("odalys"));
        using var missed = await (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log"))
            .Type("Input.Outcome", "NotOffered").Type("Input.Reason", reason).SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, missed.StatusCode);
    }

    [Fact]
    public async Task Case_manager_sees_what_lacks_and_why_decides_and_takes_it_back()
    {
        await MissAsync(1, "LearnerUnwell");
        var browser = await portal.BrowserAsync("marisol");
        var form = await FilledForm.OpenAsync(browser, Address(1));
        var text = form.Page.QuerySelector("main")!.TextContent;
        Assert.Contains("60 minutes", text, StringComparison.Ordinal);
        Assert.Contains("Learner unwell (child and family)", text, StringComparison.Ordinal);
        Assert.Contains("One person alone may decide 30 minutes not owed", text, StringComparison.Ordinal);
        Assert.Null(form["Input.Kind"]);

        using var saved = await form.Type("Input.Kind", "NotOwed").Type("Input.Amount", "30").Tick("Input.TookPart", $"{portal.Team.Marisol}")
            .Type("Input.OthersPresent", "Wren's mother").Type("Input.Why", "Rest was what she needed").SendAsync();

        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        var page = FilledForm.Parse(await browser.GetStringAsync(new Uri(Address(1), UriKind.Relative), Stop));
        Assert.Contains("30 minutes, by Marisol Quenby; with Wren's mother", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        var back = page.QuerySelector("a[href$='/take-back']")!.GetAttribute("href")!;
        using var without = await (await FilledForm.OpenAsync(browser, back)).SendAsync();
        Assert.Contains("Say why", await without.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        using var taken = await (await FilledForm.OpenAsync(browser, back)).Type("Input.Why", "Family disagreed").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, taken.StatusCode);
        Assert.Contains("Taken back: Family disagreed", await MainAsync(browser, Address(1)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_lies_on_the_agencys_side_asks_for_a_second_person_and_keeps_what_was_typed()
    {
        await MissAsync(8, "ProviderUnwell");
        var browser = await portal.BrowserAsync("marisol");
        using var refused = await (await FilledForm.OpenAsync(browser, Address(8))).Type("Input.Kind", "NotOwed").Type("Input.Amount", "30")
            .Tick("Input.TookPart", $"{portal.Team.Marisol}").Type("Input.Why", "No substitute was free").SendAsync();

        var again = await FilledForm.OfAsync(browser, refused, "main section form");
        Assert.Contains("cannot be decided not owed by one person", again.Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(("NotOwed", "30", "No substitute was free", $"{portal.Team.Marisol}"),
            (again["Input.Kind"], again["Input.Amount"], again["Input.Why"], again["Input.TookPart"]));
        var group = again.Page.QuerySelector("fieldset#Input_TookPart")!;
        Assert.Contains("by one person", again.Page.GetElementById(group.GetAttribute("aria-describedby")!)!.TextContent, StringComparison.Ordinal);
        using var saved = await again.Tick("Input.TookPart", $"{portal.Team.Odalys}").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
    }

    [Fact]
    public async Task Missed_probe_is_decided_on_the_same_way()
    {
        var (browser, goal) = (await portal.BrowserAsync("marisol"), portal.Team.Gaze.Id);
        var form = await FilledForm.OpenAsync(browser, $"/audit/goals/{goal}/decide?day=2026-09-15&owner={portal.Team.Odalys}");

        using var saved = await form.Type("Input.Kind", "MakeUp").Type("Input.Amount", "1").Type("Input.ByDay", "2026-10-16")
            .Tick("Input.TookPart", $"{portal.Team.Marisol}").Type("Input.Why", "Takes a minute at the next visit").SendAsync();

        Assert.Equal($"/audit/goals/{goal}", saved.Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Working_leads_the_case_manager_to_each_window_that_lacks_something_and_nobody_else()
    {
        var working = new Uri($"/audit/services/{portal.Team.Vision.Id}", UriKind.Relative);
        var manager = FilledForm.Parse(await (await portal.BrowserAsync("marisol")).GetStringAsync(working, Stop));
        var provider = FilledForm.Parse(await (await portal.BrowserAsync("odalys")).GetStringAsync(working, Stop));

        var week = manager.QuerySelector("#window-2026-08-24 a[href*='/decide?']")!.GetAttribute("href")!;
        Assert.Contains("week of 24 August", await MainAsync(await portal.BrowserAsync("marisol"), week), StringComparison.Ordinal);
        Assert.Null(provider.QuerySelector("a[href*='/decide?']"));
    }

    [Fact]
    public async Task Today_leads_the_case_manager_to_where_each_window_can_be_decided()
    {
        var browser = await portal.BrowserAsync("marisol");
        var today = FilledForm.Parse(await browser.GetStringAsync(new Uri("/", UriKind.Relative), Stop));
        var decide = today.QuerySelectorAll("a.act").First(a => a.TextContent.StartsWith("Decide on", StringComparison.Ordinal)).GetAttribute("href")!;

        var page = FilledForm.Parse(await browser.GetStringAsync(new Uri(decide, UriKind.Relative), Stop));

        Assert.NotNull(page.QuerySelector("a[href*='/decide?day=']"));
    }

    [Theory]
    [InlineData("odalys")]
    [InlineData("priya")]
    [InlineData("ines")]
    public async Task Only_the_case_manager_has_the_page(string person)
    {
        using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri(Address(1), UriKind.Relative), Stop);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }
}
