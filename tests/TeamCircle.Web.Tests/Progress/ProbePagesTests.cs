using System.Net;
using AngleSharp.Dom;

namespace TeamCircle.Web.Tests.Progress;

public sealed class ProbePagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Goal => $"/goals/{portal.Team.Gaze.Id}";

    private async Task<string> GoalTextAsync(HttpClient browser) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(Goal, UriKind.Relative), Stop)).QuerySelector("main")!.TextContent;

    private async Task<IElement> MainAsync(HttpClient browser, string query) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(Goal + query, UriKind.Relative), Stop)).QuerySelector("main")!;

    private async Task<string> FirstCorrectionAsync(HttpClient browser) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(Goal, UriKind.Relative), Stop)).QuerySelector("a[href^='/probes/']")!.GetAttribute("href")!;

    private async Task AddAsync(HttpClient browser, string day, string value)
    {
        using var saved = await (await FilledForm.OpenAsync(browser, $"{Goal}/probe")).Type("Input.OnDay", day).Type("Input.Value", value).SendAsync();
        Assert.Equal(Goal, saved.Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Probe_is_added_corrected_and_taken_back_and_the_goal_shows_it_all()
    {
        var browser = await portal.BrowserAsync("odalys");
        await AddAsync(browser, "2026-09-15", "37.5");
        Assert.Contains("37.5 percent without help", await GoalTextAsync(browser), StringComparison.Ordinal);

        using var corrected = await (await FilledForm.OpenAsync(browser, await FirstCorrectionAsync(browser)))
            .Type("Input.Value", "50").Type("Input.Why", "Counted again").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, corrected.StatusCode);
        var text = await GoalTextAsync(browser);
        Assert.Contains("50 percent without help", text, StringComparison.Ordinal);
        Assert.Contains("corrected by Odalys Ferreira: Counted again", text, StringComparison.Ordinal);
        Assert.Contains("37.5 percent without help", text, StringComparison.Ordinal);

        using var taken = await (await FilledForm.OpenAsync(browser, await FirstCorrectionAsync(browser), "details form")).Type("Why", "Wrong goal").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, taken.StatusCode);
        Assert.Contains("taken back: Wrong goal", await GoalTextAsync(browser), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Value_that_is_no_number_or_out_of_range_is_shown_again_as_it_was_typed()
    {
        var browser = await portal.BrowserAsync("odalys");
        var form = await FilledForm.OpenAsync(browser, $"{Goal}/probe");

        using var letters = await form.Type("Input.Value", "three").Type("Input.Conditions", "Dim room").SendAsync();
        var again = await FilledForm.OfAsync(browser, letters);
        Assert.Equal(("three", "Dim room"), (again["Input.Value"], again["Input.Conditions"]));
        using var much = await again.Type("Input.Value", "140").SendAsync();
        Assert.Contains("between 0 and 100", await much.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_who_correct_one_probe_lose_nothing()
    {
        var (odalys, marisol) = (await portal.BrowserAsync("odalys"), await portal.BrowserAsync("marisol"));
        await AddAsync(odalys, "2026-09-22", "12");
        var address = await FirstCorrectionAsync(odalys);
        var (first, second) = (await FilledForm.OpenAsync(odalys, address), await FilledForm.OpenAsync(marisol, address));
        (await first.Type("Input.Value", "13").Type("Input.Why", "One more").SendAsync()).Dispose();

        using var overtaken = await second.Type("Input.Value", "14").Type("Input.Why", "Two more").SendAsync();

        Assert.Equal(HttpStatusCode.Conflict, overtaken.StatusCode);
        var both = await FilledForm.OfAsync(marisol, overtaken);
        Assert.Equal(("14", "Two more"), (both["Input.Value"], both["Input.Why"]));
        Assert.Contains("13 percent", both.Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        using var saved = await both.SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        Assert.Contains("14 percent", await GoalTextAsync(odalys), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Chart_is_drawn_from_the_numbers_on_the_page()
    {
        var browser = await portal.BrowserAsync("odalys");
        using var saved = await (await FilledForm.OpenAsync(browser, $"{Goal}/probe")).Type("Input.OnDay", "2026-09-29").Type("Input.Value", "62.5")
            .Type("Input.Opportunities", "8").Type("Input.State", "QuietAlert").Type("Input.Side", "left").SendAsync();

        var row = (await MainAsync(browser, "")).QuerySelectorAll("tr[data-point=probe]").First(r => r.QuerySelector("time")!.GetAttribute("datetime") == "2026-09-29");
        Assert.Equal("62.5", row.QuerySelector("data")!.GetAttribute("value"));
        Assert.Equal("62.5 percent without help, 5 of 8", row.QuerySelector("data")!.TextContent);
        Assert.Equal("O", row.QuerySelector("[data-initial]")!.TextContent);
        Assert.Contains("quiet alert; left", row.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Filter_shows_what_was_taken_under_those_conditions_and_says_how_many()
    {
        var browser = await portal.BrowserAsync("odalys");
        foreach (var (day, value, side) in new[] { ("2026-09-24", "11", "far left"), ("2026-09-25", "12", "far right") })
            (await (await FilledForm.OpenAsync(browser, $"{Goal}/probe")).Type("Input.OnDay", day).Type("Input.Value", value).Type("Input.Side", side).SendAsync()).Dispose();

        var main = await MainAsync(browser, "?side=FAR%20LEFT");

        Assert.Equal("11", Assert.Single(main.QuerySelectorAll("tr[data-point] data")).GetAttribute("value"));
        Assert.Empty(main.QuerySelectorAll("tr[data-missing]"));
        Assert.Contains("1 point of", main.TextContent, StringComparison.Ordinal);
        Assert.NotNull(main.QuerySelector("#side option[selected][value='far left']"));
    }

    [Fact]
    public async Task Goal_its_changes_and_its_form_are_well_formed()
    {
        var browser = await portal.BrowserAsync("odalys");
        foreach (var address in new[] { Goal, $"{Goal}/changes", $"{Goal}/probe" })
            await WellFormed.AssertAsync(browser, address);
    }

    [Fact]
    public async Task Small_numbers_say_that_they_are_small()
    {
        var main = await MainAsync(await portal.BrowserAsync("odalys"), "?side=nowhere");

        Assert.Contains("There is no aimline", main.TextContent, StringComparison.Ordinal);
        Assert.Contains("It rests on 0 points only", main.TextContent, StringComparison.Ordinal);
        Assert.Contains("No day can be projected", main.TextContent, StringComparison.Ordinal);
        Assert.Null(main.QuerySelector("canvas"));
    }

    [Fact]
    public async Task Change_of_teaching_is_noted_shown_and_taken_back()
    {
        var browser = await portal.BrowserAsync("odalys");
        using var empty = await (await FilledForm.OpenAsync(browser, $"{Goal}/changes")).SendAsync();
        Assert.Contains("Say what changed", await empty.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        using var noted = await (await FilledForm.OpenAsync(browser, $"{Goal}/changes")).Type("Input.OnDay", "2026-09-21").Type("Input.Words", "Presented lower").SendAsync();
        Assert.Equal($"{Goal}/changes", noted.Headers.Location?.OriginalString);

        var mark = (await MainAsync(browser, "")).QuerySelectorAll("[data-mark]").Single(m => m.TextContent.Contains("Presented lower", StringComparison.Ordinal));
        Assert.Equal("2026-09-21", mark.QuerySelector("time")!.GetAttribute("datetime"));
        using var taken = await (await FilledForm.OpenAsync(browser, $"{Goal}/changes", "details form")).Type("Back.Why", "Another goal").SendAsync();

        Assert.Equal(HttpStatusCode.Redirect, taken.StatusCode);
        Assert.DoesNotContain("Presented lower", (await MainAsync(browser, "")).TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("priya", "/changes")]
    [InlineData("ines", "/changes")]
    [InlineData("priya", "")]
    [InlineData("ines", "")]
    [InlineData("priya", "/probe")]
    [InlineData("ines", "/probe")]
    public async Task Goal_that_is_none_of_theirs_is_as_if_it_did_not_exist(string person, string page)
    {
        using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri(Goal + page, UriKind.Relative), Stop);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }
}
