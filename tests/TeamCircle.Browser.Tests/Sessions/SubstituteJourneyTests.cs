using Microsoft.Playwright;
using NodaTime;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Core.People;
using TeamCircle.Data.People;
using TeamCircle.Testing;

namespace TeamCircle.Browser.Tests.Sessions;

/// <summary>A substitute for one day, on a phone. The day after is made by moving the relation back, so that no other test's day moves.</summary>
public sealed class SubstituteJourneyTests(PortalSite site)
{
    [Fact]
    public async Task Substitute_for_one_day_reads_first_logs_and_sees_nothing_the_next_day()
    {
        var agency = site.Portal.Agency;
        var learner = await TomaszsLearner.AddAsync(site);
        var runa = await agency.AddAsync(new PersonRow { Name = "Runa Castell", Email = "runa@tallowfern.example" });
        await agency.AddAsync(new PersonRoleRow { PersonId = runa.Id, Role = Role.Provider, FromDay = new(2026, 8, 17) });
        await site.Portal.AddAccountsAsync();
        var visit = await learner.VisitAsync(SampleTeam.Today, new(5, 10)); // over by the portal's nine o'clock, and before anybody else's of that day
        await using (var tomasz = await site.OpenAsync(site.Portal.Team.Tomasz, $"/visits/{visit.Id}/somebody-else", Tab.Phone))
        {
            await tomasz.Page.GetByLabel("Who comes").SelectOptionAsync($"{runa.Id}");
            await tomasz.AssertAccessibleAsync();
            await tomasz.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save" }).ClickAsync();
            await tomasz.Page.WaitForURLAsync($"**/visits/{visit.Id}");
        }

        await using var phone = await site.OpenAsync(runa, "/", Tab.Phone);
        await phone.Page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Read first" }).ClickAsync();
        await phone.Page.WaitForURLAsync($"**/learners/{learner.Learner.Id}/read-first");
        await phone.AssertAccessibleAsync();
        await phone.AssertFitsAsync(320);
        await phone.AssertOneSheetAsync("Letter");
        await phone.PictureAsync("read-first");
        await phone.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "I have read this" }).ClickAsync();
        await phone.Page.Locator($"a[href='/visits/{visit.Id}/log']").ClickAsync();
        await phone.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save" }).ClickAsync();
        await phone.Page.WaitForURLAsync($"**/visits/{visit.Id}");
        Assert.Contains("counts 0 minutes", await phone.Page.InnerTextAsync("main"), StringComparison.Ordinal);

        await agency.ChangeAsync<RelationRow>(r => r.PersonId == runa.Id, r => (r.FromDay, r.ToDay) = (SampleTeam.Today.PlusDays(-1), SampleTeam.Today.PlusDays(-1)));
        await phone.Page.GotoAsync("/");
        Assert.DoesNotContain(learner.Learner.Name, await phone.Page.InnerTextAsync("main"), StringComparison.Ordinal);
        phone.Allow("404");
        Assert.Equal(404, (await phone.Page.GotoAsync($"/learners/{learner.Learner.Id}"))!.Status);
        phone.AssertNoComplaints();
    }
}
