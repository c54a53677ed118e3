using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using MiniExcelLibs;
using NodaTime.Text;

namespace TeamCircle.Web.Tests.Commitments;

/// <summary>The audit and the pages that its figures open to, as people of the sample world see them.</summary>
public sealed class AuditPagesTests(AuditSite site) : IClassFixture<AuditSite>
{
    private const string Marisol = "marisol@tallowfern.example";
    private static readonly LocalDatePattern Day = LocalDatePattern.Iso;

    [Fact]
    public async Task Case_manager_reads_the_four_figures_and_the_status_of_every_line()
    {
        var page = await PageAsync(Marisol, "/audit");

        Assert.Equal("Audit, Period 1", Text(page.QuerySelector("h1")!));
        var row = RowOf(page, "JONAH-OT,");
        Assert.Equal(["416", "279", "90", "254"], row.QuerySelectorAll("td.number").Take(4).Select(Text));
        Assert.Contains("to make up", Text(row), StringComparison.Ordinal);
        Assert.Contains("57 decided not owed", Text(row), StringComparison.Ordinal);
        Assert.Equal(22, page.QuerySelectorAll("#lines svg.rail-strip").Length);
    }

    [Fact]
    public async Task Providers_stand_first_with_minutes_and_probes_each_in_order_or_not()
    {
        var page = await PageAsync(Marisol, "/audit");

        var priya = page.QuerySelectorAll("#providers tbody").Single(b => Text(b).StartsWith("Priya Lindqvist", StringComparison.Ordinal));
        var rows = priya.QuerySelectorAll("tr").Select(Text).ToList();
        Assert.Contains("Minutes and sessions 81 81 0 0 279 in order on pace", rows[0], StringComparison.Ordinal);
        Assert.Contains("Probes 3 2 2 2 4 not in order to make up", rows[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Provider_audits_the_whole_team_of_own_learners_only()
    {
        var page = await PageAsync("tomasz@tallowfern.example", "/audit");

        Assert.Contains("WREN-OT", Text(page.Body!), StringComparison.Ordinal);
        Assert.DoesNotContain("JONAH", Text(page.Body!), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("by=Provider&person=", "Priya")]
    [InlineData("by=Service&discipline=Vision", "SEFA-V-G1")]
    [InlineData("status=Met", "WREN-OT")]
    [InlineData("asOf=2026-08-20", "WREN-V")]
    public async Task Audit_narrows_and_groups_as_asked(string asked, string holds) =>
        Assert.Contains(holds, Text((await PageAsync(Marisol, $"/audit?{asked}")).QuerySelector("#lines")!), StringComparison.Ordinal);

    [Fact]
    public async Task What_is_undecided_opens_at_the_window_in_which_it_was_not_given()
    {
        var leads = (await PageAsync(Marisol, "/audit")).QuerySelectorAll("#undecided a").Select(a => a.GetAttribute("href")!).ToList();

        Assert.NotEmpty(leads);
        foreach (var lead in leads)
        {
            var window = (await PageAsync(Marisol, lead)).GetElementById(lead[(lead.IndexOf('#', StringComparison.Ordinal) + 1)..]);
            Assert.Contains(window!.QuerySelectorAll("dt"), d => Text(d) == "Undecided");
        }
    }

    [Fact]
    public async Task Narrowed_export_holds_what_was_asked_for_as_csv_and_as_a_workbook()
    {
        var browser = await site.BrowserAsync(Marisol);
        var csv = await browser.GetStringAsync(new Uri("/audit?handler=Csv&status=Met", UriKind.Relative));
        await using var workbook = new MemoryStream(await browser.GetByteArrayAsync(new Uri("/audit?handler=Xlsx&status=Met", UriKind.Relative)));

        var rows = csv.TrimStart('\uFEFF').Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(3, rows.Length);
        Assert.Contains(rows, r => r.StartsWith("WREN,Wren Belmares,WREN-OT,occupational therapy,bram@tallowfern.example,minutes,137,137,0,0,", StringComparison.Ordinal));
        var sheet = workbook.Query(useHeaderRow: true).Cast<IDictionary<string, object>>().ToList();
        Assert.Equal(["JONAH-PT", "WREN-OT"], sheet.Select(r => r["Service or goal"]).Cast<string>().Order());
        Assert.Equal(137d, sheet.Single(r => (string)r["Service or goal"] == "WREN-OT")["Due so far"]);
    }

    [Fact]
    public async Task Service_opens_to_every_windows_sum_and_every_visit_in_it()
    {
        var page = await PageAsync(Marisol, $"/audit/services/{await site.ServiceAsync("JONAH-OT")}");

        var amended = Text(page.QuerySelector("#window-2026-09-07")!);
        Assert.Contains("4 school days", amended, StringComparison.Ordinal);
        Assert.Contains("(60 × 1 day + 90 × 3 days) ÷ 4 days = 82.5, rounded = 83 minutes owed", amended, StringComparison.Ordinal);
        Assert.Contains("Tue 8 Sep 33 minutes, 11:10 to 11:43 am, Bram Nakamura 33 count here", amended, StringComparison.Ordinal);
        var hospital = Text(page.QuerySelector("#window-2026-08-31")!);
        Assert.Contains("not offered: learner in hospital (child and family)", hospital, StringComparison.Ordinal);
        Assert.Contains("60 owed − 27 decided not owed = 33 minutes due", hospital, StringComparison.Ordinal);
        Assert.Contains("decided on 6 September by Marisol Quenby; family told on 7 September", hospital, StringComparison.Ordinal);
        Assert.Contains("make-up: would pay 30 here", Text(page.QuerySelector("#window-2026-09-21")!), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Window_that_lacks_something_leads_to_a_form_for_its_make_up_visit()
    {
        var working = await PageAsync(Marisol, $"/audit/services/{await site.ServiceAsync("JONAH-OT")}");
        var link = working.QuerySelectorAll<IHtmlAnchorElement>("article a").First(a => Text(a).StartsWith("Log a make-up visit", StringComparison.Ordinal));
        var window = link.Closest("article")!.Id!["window-".Length..];

        var form = await PageAsync(Marisol, link.GetAttribute("href")!);

        var pays = form.QuerySelector<IHtmlInputElement>("[name='Input.PaysOn']")!.Value;
        Assert.InRange(Day.Parse(pays).Value, Day.Parse(window).Value, Day.Parse(window).Value.PlusDays(6));
        Assert.Equal($"{await site.ServiceAsync("JONAH-OT")}", form.QuerySelector<IHtmlSelectElement>("[name=Service]")!.Value);
    }

    [Fact]
    public async Task Reader_of_the_whole_agency_is_offered_no_visit_that_only_the_team_may_open()
    {
        var address = $"/audit/services/{await site.ServiceAsync("WREN-V")}";

        Assert.NotEmpty((await PageAsync(Marisol, address)).QuerySelectorAll("a[href^='/visits/']"));
        Assert.Empty((await PageAsync("dele@tallowfern.example", address)).QuerySelectorAll("a[href^='/visits/']"));
    }

    [Fact]
    public async Task Goal_opens_to_its_probes_with_the_pace_of_an_open_window()
    {
        var service = Text((await PageAsync(Marisol, $"/audit/services/{await site.ServiceAsync("WREN-PT")}")).Body!);
        var goal = Text((await PageAsync(Marisol, $"/audit/goals/{await site.GoalAsync("JONAH-OT-G1")}")).Body!);

        Assert.Contains("By 1 October 165 minutes would keep pace. 183 minutes given: on pace.", service, StringComparison.Ordinal);
        Assert.Contains("Presses a switch with the elbow within the wait", goal, StringComparison.Ordinal);
        Assert.Contains("1 probe due; 3 given; 2 probes beyond the plan", goal, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ines@family.example")]
    [InlineData("tomasz@tallowfern.example")]
    public async Task Working_of_a_learner_of_others_is_not_found(string person)
    {
        var browser = await site.BrowserAsync(person);
        using var answer = await browser.GetAsync(new Uri($"/audit/services/{await site.ServiceAsync("JONAH-OT")}", UriKind.Relative));

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    private async Task<IHtmlDocument> PageAsync(string person, string address)
    {
        var browser = await site.BrowserAsync(person);
        return await new HtmlParser().ParseDocumentAsync(await browser.GetStringAsync(new Uri(address, UriKind.Relative)));
    }

    private static IElement RowOf(IHtmlDocument page, string words) =>
        page.QuerySelectorAll("#lines tbody tr").Single(r => Text(r).Contains(words, StringComparison.Ordinal));

    private static string Text(INode node) => string.Join(' ', node.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
