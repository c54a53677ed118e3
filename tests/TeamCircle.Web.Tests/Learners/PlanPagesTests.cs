using System.Net;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Learners;

/// <summary>A learner's plan, as the case manager writes it in a browser.</summary>
public sealed class PlanPagesTests(AccessWorld world) : IClassFixture<AccessWorld>
{
    private string Wren => $"/learners/{world.Wren.Learner.Id}";

    private string[] ManagersOwn =>
    [
        $"{Wren}/edit", $"{Wren}/plan/new", $"{Wren}/services/{world.Wren.Service}/amend", $"{Wren}/services/{world.Wren.Service}/end",
        $"{Wren}/services/{world.Wren.Service}/assign", $"{Wren}/services/{world.Wren.Service}/take-back",
        $"{Wren}/goals/{world.Wren.Goal}/edit", $"{Wren}/goals/{world.Wren.Goal}/probes", $"{Wren}/goals/{world.Wren.Goal}/owners",
        $"{Wren}/goals/{world.Wren.Goal}/take-back", $"{Wren}/team/new",
    ];

    [Fact]
    public async Task Plan_pages_open_to_the_learners_case_manager_only_and_the_plan_to_the_team()
    {
        foreach (var address in ManagersOwn.Where(a => !a.EndsWith($"{world.Wren.Goal}/edit", StringComparison.Ordinal)))
        {
            Assert.Equal(HttpStatusCode.OK, await StatusAsync(Visitor.CaseManager, address));
            foreach (var visitor in new[] { Visitor.ProviderOnTeam, Visitor.CaseManagerElsewhere, Visitor.Family, Visitor.OtherAgency })
                Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(visitor, address));
            // An administrator may name the case manager, after saying why; everything else of the plan is closed to them.
            var forOffice = address.EndsWith("/team/new", StringComparison.Ordinal) ? HttpStatusCode.Redirect : HttpStatusCode.NotFound;
            foreach (var visitor in new[] { Visitor.Administrator, Visitor.Director })
                Assert.Equal(forOffice, await StatusAsync(visitor, address));
        }
        foreach (var address in new[] { $"{Wren}/plan", $"{Wren}/team" })
        {
            Assert.Equal(HttpStatusCode.OK, await StatusAsync(Visitor.ProviderOnTeam, address));
            Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(Visitor.ProviderElsewhere, address));
            Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(Visitor.Family, address));
        }
    }

    [Fact]
    public async Task Every_field_has_its_label_and_the_page_one_heading()
    {
        var browser = await world.BrowserAsync(Visitor.CaseManager);
        foreach (var address in ManagersOwn.Concat([$"{Wren}/plan", $"{Wren}/team", "/learners/new"]))
            await WellFormed.AssertAsync(browser, address);
    }

    [Fact]
    public async Task A_learner_is_taken_in_with_a_service_nobody_gives_yet_then_somebody_does()
    {
        var browser = await world.BrowserAsync(Visitor.CaseManager);
        var learner = await FilledForm.OpenAsync(browser, "/learners/new");
        Assert.Contains("Give the learner's name.", (await learner.SendForAgainAsync()).Words, StringComparison.Ordinal);
        learner.Type("Input.Name", "Sefa Lautele").Type("Input.Code", "SEFA").Type("Input.MostMinutesADay", "90")
            .Type("Input.StartDay", "2026-09-14").Type("Input.EndDay", "2027-09-13");
        using var saved = await learner.SendAsync();
        var plan = saved.Headers.Location!.ToString();

        var service = await FilledForm.OpenAsync(browser, await LinkAsync(browser, plan, "Add a service"));
        service.Type("Input.Discipline", "PhysicalTherapy").Type("Input.Amount.PlanWords", "45 minutes each week").Type("Input.Amount.Quantity", "45");
        Assert.Contains("Nobody is assigned yet.", await service.SaveAsync(), StringComparison.Ordinal);
        Assert.Contains("Nobody is assigned", await browser.GetStringAsync(new Uri(plan, UriKind.Relative)), StringComparison.Ordinal);

        var assign = await FilledForm.OpenAsync(browser, await LinkAsync(browser, plan, "Who gives it"));
        var after = await assign.Type("Input.Person", $"{world.PersonOf(Visitor.ProviderElsewhere)}").SaveAsync();
        Assert.Contains("They are on the learner's team now.", after, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(Visitor.ProviderElsewhere, plan));
    }

    [Fact]
    public async Task The_second_of_two_who_amend_a_service_sees_both_and_may_still_save()
    {
        var browser = await world.BrowserAsync(Visitor.CaseManager);
        var address = $"{Wren}/services/{world.Wren.Service}/amend";
        var (first, second) = (await FilledForm.OpenAsync(browser, address), await FilledForm.OpenAsync(browser, address));
        static FilledForm Fill(FilledForm form, string day, string minutes) => form.Type("Input.FromDay", day).Type("Input.Amount.Quantity", minutes)
            .Type("Input.Amount.PlanWords", $"{minutes} minutes each week").Type("Input.Amount.Reason", "Annual review");

        await Fill(first, "2026-11-02", "45").SaveAsync();
        var overtaken = await Fill(second, "2027-01-11", "30").SendForAgainAsync(expected: HttpStatusCode.Conflict);

        Assert.Contains("45 minutes each week", overtaken.Words, StringComparison.Ordinal);
        Assert.Equal(("30", "2027-01-11"), (overtaken["Input.Amount.Quantity"], overtaken["Input.FromDay"]));
        var plan = await overtaken.SaveAsync();
        Assert.Contains("45 minutes each week", plan, StringComparison.Ordinal);
        Assert.Contains("30 minutes each week", plan, StringComparison.Ordinal);

        var takeBack = await FilledForm.OpenAsync(browser, $"{Wren}/services/{world.Wren.Service}/take-back");
        Assert.DoesNotContain("30 minutes each week", await takeBack.Type("Input.Reason", "Typed from the wrong page").SaveAsync("Amendment"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_goals_owner_writes_how_it_is_measured_and_not_its_statement()
    {
        var address = $"{Wren}/goals/{world.Wren.Goal}/edit";
        var owner = await FilledForm.OpenAsync(await world.BrowserAsync(Visitor.ProviderOnTeam), address);
        Assert.Null(owner.Page.GetElementById("Input_Parts_Statement"));
        owner.Type("Input.Parts.Measure", "TimeToRespond").Type("Input.Parts.Objectives[0].Statement", "After a pause")
            .Tick("Input.Parts.Statement", "Slipped in by the browser").Type("Input.Parts.CriterionDays", "3").Type("Input.Parts.CriterionOf", "4");

        var plan = await owner.SaveAsync();

        Assert.Contains("After a pause", plan, StringComparison.Ordinal);
        Assert.Contains("On 3 of the last 4 days", plan, StringComparison.Ordinal);
        Assert.DoesNotContain("Slipped in", plan, StringComparison.Ordinal);
        var manager = await FilledForm.OpenAsync(await world.BrowserAsync(Visitor.CaseManager), address);
        Assert.Null(manager.Page.GetElementById("Input_Parts_Measure"));
        Assert.Contains("Presses the switch", manager["Input.Parts.Statement"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Somebody_joins_and_leaves_the_team_with_dates()
    {
        var browser = await world.BrowserAsync(Visitor.CaseManager);
        var add = await FilledForm.OpenAsync(browser, $"{Wren}/team/new");
        add.Type("Input.Person", $"{world.PersonOf(Visitor.CaseManagerElsewhere)}").Type("Input.Kind", "Substitute");
        Assert.Contains("this relation never stays open", (await add.SendForAgainAsync()).Words, StringComparison.Ordinal);
        Assert.Contains("CaseManagerElsewhere", await add.Type("Input.ToDay", "2026-10-09").SaveAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(Visitor.CaseManagerElsewhere, $"{Wren}/plan"));

        var team = FilledForm.Parse(await browser.GetStringAsync(new Uri($"{Wren}/team", UriKind.Relative)));
        var link = team.QuerySelectorAll(".rows li").Single(li => li.TextContent.Contains("CaseManagerElsewhere", StringComparison.Ordinal)).QuerySelector("a")!.GetAttribute("href")!;
        var end = await FilledForm.OpenAsync(browser, link);
        await end.Tick("Input.TakeBack", "true").Type("Input.Reason", "Another one comes").SaveAsync();
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(Visitor.CaseManagerElsewhere, $"{Wren}/plan"));
    }

    private async Task<HttpStatusCode> StatusAsync(Visitor visitor, string address)
    {
        using var answer = await (await world.BrowserAsync(visitor)).GetAsync(new Uri(address, UriKind.Relative));
        return answer.StatusCode;
    }

    private static async Task<string> LinkAsync(HttpClient browser, string page, string words)
    {
        var document = FilledForm.Parse(await browser.GetStringAsync(new Uri(page, UriKind.Relative)));
        return document.QuerySelectorAll("main a").First(a => a.TextContent.StartsWith(words, StringComparison.Ordinal)).GetAttribute("href")!;
    }
}
