using TeamCircle.Core.People;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Beginning;

/// <summary>An agency as it is made: an administrator and a director, and nothing else.</summary>
public sealed class NewAgencyPortal(PgAssembly server) : AgencyPortal(server)
{
    public Task<HttpClient> BrowserAsync(string who) => SignedInAsync($"{who}@tallowfern.example");

    protected override async Task FillAsync()
    {
        await AddAsync("dele", Role.Administrator);
        await AddAsync("solveig", Role.Director);
    }

    private async Task AddAsync(string who, Role role)
    {
        var person = await Agency.AddAsync(new PersonRow { Email = $"{who}@tallowfern.example", Name = who });
        await Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = role, FromDay = new(2026, 8, 1) });
    }
}

/// <summary>The way of a new agency to its first audit, which can be left at any step and taken up again by what is there.</summary>
public sealed class BeginningPageTests(NewAgencyPortal portal) : IClassFixture<NewAgencyPortal>
{
    private const string Page = "/settings/begin";

    [Fact]
    public async Task Way_leads_from_an_empty_agency_to_its_first_audit_by_what_is_there()
    {
        var dele = await portal.BrowserAsync("dele");
        Assert.Contains("next, bring people and learners", await WordsAsync(dele, "/"), StringComparison.Ordinal);
        Assert.Contains("Next: bring people and learners.", await WordsAsync(dele, "/settings"), StringComparison.Ordinal);
        Assert.Equal("Not yet;Not yet;Not yet;Not yet;Done;Not yet", await StatesAsync(dele)); // the director has joined, and nobody else works here yet
        await WellFormed.AssertAsync(dele, Page);
        Assert.Equal("/settings/periods", await NextActAsync(dele, "/audit"));
        Assert.Equal("/settings/import", await NextActAsync(dele, "/caseload"));

        await SampleWorld.ImportAsync(portal.Agency);

        Assert.Equal("Done;Done;Done;Done;Begun;Not yet", await StatesAsync(dele)); // the look at the empty audit was none
        Assert.Contains("3 learners, 7 people working here, 1 person of families.", await WordsAsync(dele, Page), StringComparison.Ordinal);
        Assert.Contains("next, see the first audit", await WordsAsync(dele, "/"), StringComparison.Ordinal);

        await WordsAsync(dele, "/audit");

        Assert.Equal("Done;Done;Done;Done;Begun;Done", await StatesAsync(dele));
        Assert.DoesNotContain("next,", await WordsAsync(dele, "/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Director_reads_how_far_it_has_come_and_opens_only_the_audit()
    {
        var solveig = await portal.BrowserAsync("solveig");

        var page = FilledForm.Parse(await solveig.GetStringAsync(new Uri(Page, UriKind.Relative)));

        Assert.Equal(["/audit"], page.QuerySelectorAll("main ol.rows a").Select(a => a.GetAttribute("href")));
    }

    private static async Task<string> StatesAsync(HttpClient browser) => string.Join(';', FilledForm.Parse(await browser.GetStringAsync(new Uri(Page, UriKind.Relative)))
        .QuerySelectorAll("main ol.rows .lead").Select(e => e.TextContent.Trim()));

    private static async Task<string?> NextActAsync(HttpClient browser, string address) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(address, UriKind.Relative))).QuerySelector("main .empty a")?.GetAttribute("href");

    private static async Task<string> WordsAsync(HttpClient browser, string address) =>
        string.Join(' ', FilledForm.Parse(await browser.GetStringAsync(new Uri(address, UriKind.Relative))).QuerySelector("main")!.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
