using System.Net;
using TeamCircle.Core.Papers;
using TeamCircle.Data.Papers;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Tests.Papers;

/// <summary>Days that bind, a meeting's pack, an extended year and what went to the family, over HTTP on 2 October 2026. Each test keeps to rows of its own.</summary>
public sealed class PapersPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private async Task<FilledForm> FormAsync(string path, string selector = "main form[method=post]") => await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Marisol), path, selector);

    private async Task<HttpStatusCode> StatusAsync(PersonRow person, string path) => (await (await portal.BrowserAsync(person)).GetAsync(new Uri(path, UriKind.Relative))).StatusCode;

    [Fact]
    public async Task Day_is_entered_seen_by_the_team_and_done()
    {
        var dates = $"/learners/{portal.Team.Wren.Id}/dates";
        var form = (await FormAsync(dates)).Type("Input.Kind", "VisionEvaluation").Type("Input.DueOn", "2026-10-26").Type("Input.RestsOn", "The agency's own rule").Type("Input.RepeatMonths", "12");
        await form.SaveAsync();

        var page = await portal.PageAsync(portal.Team.Odalys, dates);
        // From Friday 2 October: 2, 5 to 9, 13 to 16 and 19 to 23 October are school days; the 12th is a staff day.
        Assert.Contains(page.Texts(".rows li"), row => row.Contains("Functional vision evaluation, in 24 days, 15 school days before it", StringComparison.Ordinal));
        Assert.Null(page.QuerySelector("main form[method=post]"));
        Assert.Contains("Functional vision evaluation, in 24 days", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{portal.Team.Wren.Id}")).Text("#dates"), StringComparison.Ordinal);
        Assert.Contains("bind", (await portal.PageAsync(portal.Team.Marisol, "/")).Text("main"), StringComparison.Ordinal);

        var own = (await portal.PageAsync(portal.Team.Marisol, dates)).QuerySelector(".rows a.act")!.GetAttribute("href")!;
        Assert.Contains("1 October 2027", await SavedAsync(own, "form[action*=Done]", f => f.Type("Done.DoneOn", "2026-10-01")), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(portal.Team.Marisol, own));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Ines, dates));
    }

    private async Task<string> SavedAsync(string path, string selector, Func<FilledForm, FilledForm> fill) => await fill(await FormAsync(path, selector)).SaveAsync();

    [Fact]
    public async Task Administrator_finds_codes_and_nothing_that_people_wrote()
    {
        await portal.Agency.AddAsync(new BoundDateRow { LearnerId = portal.Team.Sefa.Id, Kind = BoundKind.Orders, DueOn = new(2026, 9, 28), RestsOn = "the letter of her physician", EnteredBy = portal.Team.Marisol.Id });

        var list = (await portal.PageAsync(portal.Team.Dele, "/dates?kind=Orders")).Text("main");

        Assert.Contains($"{portal.Team.Sefa.Code}: orders for therapy, overdue since 28 September, 4 days", list, StringComparison.Ordinal);
        Assert.DoesNotContain("physician", list, StringComparison.Ordinal);
        Assert.DoesNotContain(portal.Team.Sefa.Name, list, StringComparison.Ordinal);
        Assert.Contains("the letter of her physician", (await portal.PageAsync(portal.Team.Marisol, "/dates?kind=Orders")).Text("main"), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Pack_is_made_read_and_proved_to_have_gone_out()
    {
        var learner = portal.Team.Jonah.Id;
        using var made = await (await FormAsync($"/learners/{learner}/meeting-pack")).Type("Input.OnDay", "2026-10-20").Type("Input.About", "Annual review").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);
        var address = made.Headers.Location!.ToString();

        var pack = await portal.PageAsync(portal.Team.Odalys, address);
        // Five school days before Tuesday 20 October: 19, 16, 15, 14 and 13 October.
        Assert.Contains("With the family by 13 October 2026", pack.Text(".head"), StringComparison.Ordinal);
        Assert.Null(pack.QuerySelector("main form[method=post]"));

        var sent = $"/learners/{learner}/papers";
        var form = (await FormAsync($"{sent}?paper=MeetingPack:{address.Split('/')[^1]}")).Type("Input.Way", "Handed").Type("Input.Language", "Spanish").Type("Input.ToWhom", "his father");
        Assert.Contains("Handed over on 2 October 2026, in Spanish, to his father; by Marisol Quenby", Squeezed(await form.SaveAsync()), StringComparison.Ordinal);
        Assert.Contains("due by 13 October 2026", (await portal.PageAsync(portal.Team.Odalys, address)).Text("#sent"), StringComparison.Ordinal);

        var back = (await portal.PageAsync(portal.Team.Marisol, sent)).QuerySelectorAll("main a").Single(a => a.TextContent.StartsWith("It came back", StringComparison.Ordinal)).GetAttribute("href")!;
        var words = Squeezed(await SavedAsync(back, "form[action*=Returned]", f => f.Type("Returned.ReturnedWord", "He had moved")));
        Assert.Contains("came back: to be sent again", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Extended_year_is_decided_on_its_page()
    {
        var page = $"/learners/{portal.Team.Wren.Id}/extended-year";
        await (await FormAsync(page)).Type("Ask.DecideBy", "2027-03-01").SaveAsync();

        var again = await (await FormAsync(page, "form[action*=Decide]")).Type("Decision.Answer", "NotNeeded").SendForAgainAsync();
        Assert.Contains("Write what the team weighed", again.Words, StringComparison.Ordinal);
        var form = (await FormAsync(page, "form[action*=Decide]")).Type("Decision.Answer", "NotNeeded").Type("Decision.Reason", "She kept what she had over the break.").Type("Decision.TookPart", "Her mother, Odalys Ferreira");
        Assert.Contains("Extended school year not needed", Squeezed(await form.SaveAsync()), StringComparison.Ordinal);
    }

    private static string Squeezed(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
