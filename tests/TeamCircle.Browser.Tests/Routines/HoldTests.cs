using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Browser.Tests.Sessions;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Browser.Tests.Routines;

/// <summary>One journey: a hold is set in one browser, and the card is blocked in another.</summary>
public sealed class HoldTests(PortalSite site)
{
    private async Task<(TomaszsLearner Learner, RoutineRow Routine)> RoutineAsync()
    {
        var (agency, team) = (site.Portal.Agency, site.Portal.Team);
        var learner = await TomaszsLearner.AddAsync(site);
        await agency.AddAsync(new RelationRow { LearnerId = learner.Learner.Id, PersonId = team.Bram.Id, Kind = Relation.Team, FromDay = new(2026, 8, 17) });
        var routine = await agency.AddAsync(new RoutineRow { LearnerId = learner.Learner.Id, Name = "Fan and ribbons", ObjectCue = "a strip of ribbon" });
        var card = new RoutineContent { Cue = "a strip of ribbon", Steps = [new("s1", StepKind.Shown, "Draw the ribbon over the hand.", []), new("s2", StepKind.Response, "Presses; the ribbons fly.", [])] };
        await agency.AddAsync(new RoutineVersionRow { LearnerId = learner.Learner.Id, RoutineId = routine.Id, Number = 1, Content = card.Write(), WrittenBy = team.Tomasz.Id });
        return (learner, routine);
    }

    [Fact]
    public async Task Hold_that_is_set_in_one_browser_blocks_the_card_in_another()
    {
        var (learner, routine) = await RoutineAsync();
        await using var bram = await site.OpenAsync(site.Portal.Team.Bram, $"/routines/{routine.Id}");
        Assert.Equal(1, await bram.Page.GetByRole(AriaRole.Link, new() { Name = "Practise Fan and ribbons" }).CountAsync());
        await using var tomasz = await site.OpenAsync(site.Portal.Team.Tomasz, $"/routines/{routine.Id}", Tab.Phone);

        await tomasz.Page.GetByRole(AriaRole.Link, new() { Name = "Set a hold", Exact = true }).ClickAsync();
        await tomasz.Page.WaitForURLAsync("**/holds/new?on=*");
        await tomasz.AssertAccessibleAsync();
        await tomasz.PictureAsync("hold-set");
        await tomasz.Page.GetByLabel("Why", new() { Exact = true }).FillAsync("Eyes flickered for longer than usual after the fan.");
        await tomasz.Page.GetByLabel("Parent", new() { Exact = true }).CheckAsync();
        await tomasz.Page.GetByLabel("Their name").FillAsync("Ilse Corvane");
        await tomasz.Page.GetByRole(AriaRole.Button, new() { Name = "Set the hold" }).ClickAsync();
        await tomasz.Page.WaitForURLAsync("**/holds");
        await tomasz.AssertAccessibleAsync();
        await tomasz.AssertFitsAsync(320);
        await tomasz.PictureAsync("holds");

        await bram.Page.ReloadAsync();
        Assert.Equal(0, await bram.Page.GetByRole(AriaRole.Link, new() { Name = "Practise Fan and ribbons" }).CountAsync());
        Assert.Contains("Hold: Fan and ribbons.", await bram.Page.Locator(".hold").InnerTextAsync(), StringComparison.Ordinal);
        await bram.AssertAccessibleAsync();
        await bram.PictureAsync("hold-card");
        await bram.Page.GotoAsync($"/learners/{learner.Learner.Id}");
        await bram.AssertAccessibleAsync();
        await bram.PictureAsync("hold-learner");
        tomasz.AssertNoComplaints();
        bram.AssertNoComplaints();
    }
}
