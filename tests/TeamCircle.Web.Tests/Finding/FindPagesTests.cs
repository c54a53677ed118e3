using System.Net;
using TeamCircle.Data.People;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Finding;

/// <summary>Over HTTP: the field in the head of every page, the page of what was found, and the keys.</summary>
public sealed class FindPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_was_typed_stands_in_no_address_and_no_log_and_can_be_gone_back_to_by_the_same_person_alone()
    {
        var odalys = await portal.BrowserAsync(portal.Team.Odalys);
        using var sent = await (await FilledForm.OpenAsync(odalys, "/", "header form[method=post]")).Type("q", "Belmares").SendAsync();
        var address = sent.Headers.Location!.OriginalString;
        Assert.StartsWith("/find?of=", address, StringComparison.Ordinal);
        Assert.DoesNotContain("Belmares", Uri.UnescapeDataString(address), StringComparison.OrdinalIgnoreCase);

        foreach (var _ in new[] { "the first time", "and again" })
        {
            var page = FilledForm.Parse(await odalys.GetStringAsync(new Uri(address, UriKind.Relative), Stop));
            Assert.Equal([$"/learners/{portal.Team.Wren.Id}"], page.Part("Learners").QuerySelectorAll("a").Select(a => a.GetAttribute("href")!));
            Assert.Equal("Belmares", page.QuerySelector("#q")!.GetAttribute("value"));
            Assert.Empty(page.QuerySelectorAll("header form")); // one field that finds is enough
        }
        var bram = FilledForm.Parse(await (await portal.BrowserAsync(portal.Team.Bram)).GetStringAsync(new Uri(address, UriKind.Relative), Stop));
        Assert.Equal("", bram.QuerySelector("#q")!.GetAttribute("value") ?? "");
        Assert.Equal([], Canaries.InFiles(portal.LogFolder, "*", "Belmares"));
        await WellFormed.AssertAsync(odalys, address);
    }

    [Theory]
    [InlineData("swich", "Nothing is spelled just so.")]
    [InlineData("qqqq 1/31", "was read as the day of a visit")]
    [InlineData("w", "Type one more")]
    [InlineData("bram", "Team of Wren Belmares")]
    public async Task Page_says_how_it_read_what_was_typed(string typed, string said)
    {
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), "/find");

        Assert.Contains(said, await form.Type("q", typed).SaveAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_audits_the_whole_agency_narrows_the_audit_from_what_was_found()
    {
        async Task<IEnumerable<string>> AuditsAsync(PersonRow person)
        {
            var browser = await portal.BrowserAsync(person);
            using var sent = await (await FilledForm.OpenAsync(browser, "/find")).Type("q", "wren").SendAsync();
            return FilledForm.Parse(await browser.GetStringAsync(sent.Headers.Location, Stop)).QuerySelectorAll("main a[href^='/audit?']").Select(a => a.GetAttribute("href")!);
        }

        Assert.Equal([$"/audit?learner={portal.Team.Wren.Id}"], await AuditsAsync(portal.Team.Dele));
        Assert.Empty(await AuditsAsync(portal.Team.Odalys));
    }

    [Fact]
    public async Task Family_has_no_field_and_a_page_that_says_sorry_holds_none()
    {
        var ines = FilledForm.Parse(await (await portal.BrowserAsync(portal.Team.Ines)).GetStringAsync(new Uri($"/family/{portal.Team.Wren.Id}", UriKind.Relative), Stop));
        using var missing = await (await portal.BrowserAsync(portal.Team.Odalys)).GetAsync(new Uri("/learners/99999999", UriKind.Relative), Stop);

        Assert.Empty(ines.QuerySelectorAll("[href='/find'], [href='/keys'], [name=q]"));
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
        Assert.Empty(FilledForm.Parse(await missing.Content.ReadAsStringAsync(Stop)).QuerySelectorAll("[name=q]"));
    }

    [Fact]
    public async Task Keys_without_another_key_held_down_can_be_turned_off_and_on()
    {
        var browser = await portal.BrowserAsync(portal.Team.Priya);
        async Task<bool> ListensAsync() => FilledForm.Parse(await browser.GetStringAsync(new Uri("/", UriKind.Relative), Stop)).QuerySelector("script[src*='/js/keys.']") is not null;

        Assert.True(await ListensAsync());
        await (await FilledForm.OpenAsync(browser, "/keys")).SaveAsync();
        Assert.False(await ListensAsync());
        await (await FilledForm.OpenAsync(browser, "/keys")).SaveAsync();
        Assert.True(await ListensAsync());
    }
}
