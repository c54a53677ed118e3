using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Browser.Tests.Calendar;

/// <summary>The pages on which an agency and a case manager set things, in a real browser.</summary>
public sealed class SettingsAndPlanTests(PortalSite site)
{
    public static TheoryData<string, string, string> Pages => new()
    {
        { "settings", "Dele", "/settings" },
        { "calendar", "Dele", "/settings/calendar" },
        { "terms", "Dele", "/settings/calendar/terms" },
        { "long-times-away", "Dele", "/settings/calendar/away" },
        { "closure-new", "Dele", "/settings/calendar/closures/new" },
        { "holidays", "Dele", "/settings/calendar/holidays" },
        { "periods", "Dele", "/settings/periods" },
        { "policy", "Dele", "/settings/policy" },
        { "policy-change", "Dele", "/settings/policy/change" },
        { "learner-new", "Marisol", "/learners/new" },
        { "plan", "Marisol", "/learners/{wren}/plan" },
        { "service-new", "Marisol", "/learners/{wren}/plans/{plan}/services/new" },
        { "service-amend", "Marisol", "/learners/{wren}/services/{service}/amend" },
        { "service-assign", "Marisol", "/learners/{wren}/services/{service}/assign" },
        { "goal-new", "Marisol", "/learners/{wren}/plans/{plan}/goals/new" },
        { "team", "Marisol", "/learners/{wren}/team" },
        { "team-new", "Marisol", "/learners/{wren}/team/new" },
    };

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_is_accessible_in_light_and_dark_and_fits_a_narrow_screen(string name, string who, string path)
    {
        await using var tab = await site.OpenAsync(Person(who), await AddressAsync(path));

        await tab.AssertAccessibleAsync();
        await tab.PictureAsync(name);
        await tab.AssertFitsAsync(320);
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task A_closure_is_entered_with_the_keyboard_alone_after_its_effect_was_seen()
    {
        await using var tab = await site.OpenAsync(Person("Dele"), "/settings/calendar/closures/new");
        await tab.Page.GetByLabel("Closed, in the published calendar").CheckAsync();
        await tab.Page.GetByLabel("Name in the calendar").FillAsync("Flood");
        await tab.Page.GetByLabel("Day, or first day").FillAsync("2026-10-19");
        await tab.Page.GetByLabel("Last day").FillAsync("2026-12-18");
        await tab.Page.Keyboard.PressAsync("Enter");

        await tab.Page.GetByRole(AriaRole.Heading, new() { Name = "What it would change" }).WaitForAsync();
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("closure-preview");
        Assert.True(await tab.Page.GetByLabel("Why the calendar changes").IsVisibleAsync());
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Visits_on_a_day_that_was_closed_later_are_cancelled_and_taken_back_on_one_page()
    {
        var day = new NodaTime.LocalDate(2027, 4, 14);
        var closure = await site.Portal.Agency.AddAsync(new ClosureRow { OnDay = day, Name = "Water damage", Kind = Core.Calendar.ClosureKind.Unscheduled });
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = site.Portal.Team.Wren.Id,
            Kind = Core.Calendar.VisitKind.EquipmentAndFitting,
            ProviderId = site.Portal.Team.Priya.Id,
            Zone = "America/Los_Angeles",
        };
        visit.TakePlace(day, new(16, 0), 30);
        await site.Portal.Agency.AddAsync(visit);
        await using var tab = await site.OpenAsync(Person("Dele"), "/settings/calendar");

        await tab.Page.GetByRole(AriaRole.Link, new() { Name = "1 planned visit stands on it" }).ClickAsync();
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("closure-visits");
        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "Cancel this visit" }).ClickAsync();
        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "Take that back" }).ClickAsync();
        await tab.Page.GetByRole(AriaRole.Button, new() { Name = "Cancel this visit" }).WaitForAsync();
        await tab.AssertFitsAsync(320);
        tab.AssertNoComplaints();
        await site.Portal.Agency.ChangeAsync<ClosureRow>(c => c.Id == closure.Id, c => c.Live = false); // the calendar is everybody's in this run
    }

    private PersonRow Person(string name) => name switch
    {
        "Dele" => site.Portal.Team.Dele,
        _ => site.Portal.Team.Marisol,
    };

    private async Task<string> AddressAsync(string path)
    {
        var wren = site.Portal.Team.Wren.Id;
        var plan = (await site.Portal.Agency.Get<ReadPlan>().RunAsync(site.Portal.Agency.WholeAgency, wren))!.Plans[0];
        return path.Replace("{wren}", $"{wren}", StringComparison.Ordinal).Replace("{plan}", $"{plan.Id}", StringComparison.Ordinal)
            .Replace("{service}", $"{plan.Services[0].Id}", StringComparison.Ordinal);
    }
}
