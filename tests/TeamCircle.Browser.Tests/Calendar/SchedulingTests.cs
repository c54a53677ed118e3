using System.Diagnostics;
using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Browser.Tests.Sessions;

namespace TeamCircle.Browser.Tests.Calendar;

/// <summary>Scheduling in a real browser: clashes while typing, the pages of a visit, and how they look.</summary>
public sealed class SchedulingTests(PortalSite site)
{
    private async Task<Tab> NewAsync(TomaszsLearner learner, int width = Tab.Desk)
    {
        var tab = await site.OpenAsync(site.Portal.Team.Tomasz, $"/visits/new?service={learner.Service.Id}", width);
        await tab.Page.GetByLabel("From", new() { Exact = true }).FillAsync("09:00");
        await tab.Page.GetByLabel("Minutes", new() { Exact = true }).FillAsync("30");
        return tab;
    }

    [Fact]
    public async Task Clash_is_said_while_typing_and_nothing_is_written()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        await learner.VisitAsync(new(2026, 10, 9), new(9, 0));
        await using var tab = await NewAsync(learner);
        var asked = tab.Page.WaitForRequestAsync(request => request.Url.Contains("handler=Clashes", StringComparison.Ordinal) && request.Url.Contains("2026-10-09", StringComparison.Ordinal));

        var watch = Stopwatch.StartNew();
        await tab.Page.GetByLabel("Day, or first day").FillAsync("2026-10-09");
        var request = await asked;
        var waited = watch.ElapsedMilliseconds;
        await tab.Page.GetByText("Tomasz Abiolek is taken from").WaitForAsync();

        Assert.Equal("GET", request.Method);
        TestContext.Current.TestOutputHelper?.WriteLine($"asked {waited} ms after the last change, answered after {watch.ElapsedMilliseconds} ms");
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("schedule-clash");
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Series_is_scheduled_changed_and_taken_back_by_what_the_pages_offer()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        await using var tab = await NewAsync(learner);
        await tab.Page.GetByLabel("Day, or first day").FillAsync("2026-11-05");
        await tab.Page.GetByLabel("By weeks").CheckAsync();
        await tab.Page.GetByLabel("Until").FillAsync("2026-12-17");
        await tab.Page.GetByText("Every week on Thursday, 9:00 to 9:30 am, until 17 December 2026: 7 visits.").WaitForAsync();
        await tab.AssertAccessibleAsync();
        await tab.AssertFitsAsync(Tab.Phone);
        await tab.PictureAsync("schedule-series");

        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "Schedule", Exact = true }).ClickAsync();
        await tab.Page.GetByText("7 visits are scheduled.").WaitForAsync();
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("visit-planned");
        await tab.Page.GetByRole(AriaRole.Link, new() { Name = "Change all that follow" }).ClickAsync();
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("change-following");
        await tab.Page.GetByLabel("From", new() { Exact = true }).FillAsync("10:30");
        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "Save" }).ClickAsync();
        await tab.Page.GetByText("10:30 to 11:00 am").First.WaitForAsync();
        await tab.Page.GetByRole(AriaRole.Link, new() { Name = "Take back the last change" }).ClickAsync();
        await tab.PictureAsync("undo");
        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "Take it back" }).ClickAsync();
        await tab.Page.GetByText("Taken back.").WaitForAsync();
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Pages_of_time_away_places_and_hours_are_accessible_and_fit_a_phone()
    {
        var (learner, team) = (await TomaszsLearner.AddAsync(site), site.Portal.Team);
        var pages = new[]
        {
            (team.Marisol, $"/learners/{learner.Learner.Id}/away", "away"), (team.Marisol, $"/learners/{learner.Learner.Id}/hours", "open-hours"),
            (team.Dele, "/settings/places", "places"), (team.Dele, $"/settings/people/{team.Bram.Id}/hours", "working-hours"),
        };
        foreach (var (person, path, name) in pages)
        {
            await using var tab = await site.OpenAsync(person, path);
            await tab.AssertAccessibleAsync();
            await tab.PictureAsync(name);
            await tab.AssertFitsAsync(Tab.Phone);
            tab.AssertNoComplaints();
        }
    }

    [Fact]
    public async Task Call_off_on_Today_takes_two_taps_of_a_thumb()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        var visit = await learner.VisitAsync(new(2026, 10, 2), new(16, 0));
        await using var tab = await site.OpenAsync(site.Portal.Team.Tomasz, "/", Tab.Phone);
        var row = tab.Page.Locator("li", new() { Has = tab.Page.Locator($"form[action='/visits/{visit.Id}/call-off']") });

        await row.GetByText("Call off, running late").ClickAsync();
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("on-the-day");
        await row.GetByRole(AriaRole.Button, new() { Name = "nobody home" }).ClickAsync();

        await tab.Page.GetByText("When can it be made up?").WaitForAsync();
        await tab.AssertAccessibleAsync();
        tab.AssertNoComplaints();
    }
}
