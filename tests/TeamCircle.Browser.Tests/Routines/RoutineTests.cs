using Microsoft.Playwright;
using NodaTime;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Browser.Tests.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Routines;

namespace TeamCircle.Browser.Tests.Routines;

/// <summary>One journey: a routine is added, planned, practised at home and at a visit, and looked at.</summary>
public sealed class RoutineTests(PortalSite site)
{
    private static readonly LocalDate Today = new(2026, 10, 2);

    private async Task<VisitRow> VisitAsync(TomaszsLearner learner, LocalTime start)
    {
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = learner.Learner.Id,
            ServiceId = learner.Service.Id,
            ProviderId = site.Portal.Team.Tomasz.Id,
            Zone = "America/Los_Angeles",
            LearnersTime = true,
        };
        visit.TakePlace(Today, start, 30);
        return await site.Portal.Agency.AddAsync(visit);
    }

    private async Task RoutineAsync(TomaszsLearner learner, string name, string cue, params VisitRow[] at)
    {
        var routine = await site.Portal.Agency.AddAsync(new RoutineRow { LearnerId = learner.Learner.Id, Name = name, ObjectCue = cue });
        foreach (var visit in at)
            await site.Portal.Agency.AddAsync(new VisitRoutineRow { LearnerId = learner.Learner.Id, VisitId = visit.Id, RoutineId = routine.Id });
    }

    [Fact]
    public async Task Routine_is_added_planned_at_a_visit_and_stands_on_the_strip_and_in_the_coverage()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        var (early, late) = (await VisitAsync(learner, new(8, 0)), await VisitAsync(learner, new(16, 30)));
        await RoutineAsync(learner, "Warm towel hello", "the striped towel", early);
        await RoutineAsync(learner, "Fan and ribbons", "a red ribbon", late);
        await using var tab = await site.OpenAsync(site.Portal.Team.Tomasz, $"/learners/{learner.Learner.Id}/routines");

        await tab.Page.GetByLabel("Name").FillAsync("Watering the herbs");
        await tab.Page.GetByLabel("Object cue").FillAsync("the small watering can");
        await tab.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Add the routine" }).ClickAsync();
        await tab.Page.WaitForURLAsync("**/routines/*");
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync("routine-plan");
        await tab.Page.GetByLabel("4:30 pm").CheckAsync();
        await tab.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save the visits" }).ClickAsync();
        await tab.Page.WaitForURLAsync("**/routines");

        Assert.Equal(3, await tab.Page.Locator(".coverage .cell").CountAsync());
        foreach (var (name, path) in new[] { ("routines", "routines"), ("coverage-back", "routines?back=true"), ("day-strip", "day") })
        {
            await tab.Page.GotoAsync($"/learners/{learner.Learner.Id}/{path}");
            Assert.Equal(1, await tab.Page.Locator("h1").CountAsync());
            await tab.AssertAccessibleAsync();
            await tab.PictureAsync(name);
            await tab.AssertFitsAsync(320);
            await tab.Page.SetViewportSizeAsync(Tab.Desk, 900);
        }
        Assert.Equal(["the striped towel", "a red ribbon", "the small watering can"], await tab.Page.Locator(".strip .thing").AllInnerTextsAsync());
        Assert.Equal(1, await tab.Page.Locator(".strip .now").CountAsync());
        Assert.True(await tab.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Full screen" }).IsVisibleAsync());
        tab.AssertNoComplaints();
    }
}
