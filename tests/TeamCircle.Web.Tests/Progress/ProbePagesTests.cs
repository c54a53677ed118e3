using System.Net;

namespace TeamCircle.Web.Tests.Progress;

public sealed class ProbePagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Goal => $"/goals/{portal.Team.Gaze.Id}";

    private async Task<string> GoalTextAsync(HttpClient browser) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(Goal, UriKind.Relative), Stop)).QuerySelector("main")!.TextContent;

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

    [Theory]
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
