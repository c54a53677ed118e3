using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>A co-treatment without network: two people, two tablets, one practice.</summary>
public sealed class SecondObserverJourneyTests(PortalSite site)
{
    [Fact]
    public async Task Colleague_scores_the_same_trial_by_the_code_of_the_first_sheet_and_a_visit_nobody_scheduled_is_logged()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await TreatTogetherAsync(routine, site.Portal.Team.Priya);
        await using var first = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await using var second = await Tablet.SetUpAsync(site, site.Portal.Team.Priya);
        await first.OfflineAsync(true);
        await second.OfflineAsync(true);

        await first.BeginAsync(routine);
        await first.ClickAsync("Second observer");
        var code = await first.Page.Locator(".sheet-code").InnerTextAsync();
        await first.AssertAccessibleAsync();
        await first.Tab.PictureAsItIsAsync("practise-second-observer");
        await first.ClickAsync("Close");
        await ScoreAsync(second, routine, code);
        await TryAsync(first, "Hoped for", seconds: 2);
        await first.Page.GetByLabel("Rest, minutes").FillAsync("5");
        await first.SaveAsync();
        await LogAsync(first, routine);
        Assert.Contains("wakeLock screen", await first.AskedAsync(), StringComparison.Ordinal);
        Assert.Contains("persist", await first.AskedAsync(), StringComparison.Ordinal);

        foreach (var tablet in new[] { second, first }) // who came later is found
        {
            await tablet.OfflineAsync(false);
            await tablet.WaitUntilSentAsync();
            tablet.Tab.AssertNoComplaints();
        }
        var practices = await routine.PracticesAsync();
        Assert.Equal([(site.Portal.Team.Priya.Id, practices[1].Id), (site.Portal.Team.Tomasz.Id, (Guid?)null)], practices.Select(p => (p.ProviderId, p.Observes)));
        Assert.Equal(practices[1].Id, Assert.Single((await routine.TrialsAsync()).DistinctBy(t => t.PracticeId)).PracticeId);
        Assert.Equal([new Filled(FilledKind.Transfers, 15)], (await SessionAsync(routine)).Filled);
    }

    /// <summary>A colleague on the learner's team, who is there at the same time.</summary>
    private async Task TreatTogetherAsync(PractisedRoutine routine, PersonRow person)
    {
        await site.Portal.Agency.AddAsync(new RelationRow { LearnerId = routine.Of.Learner.Id, PersonId = person.Id, Kind = Relation.Team, FromDay = new(2026, 8, 17) });
        var visit = new VisitRow { Id = Guid.CreateVersion7(), LearnerId = routine.Of.Learner.Id, Kind = VisitKind.EquipmentAndFitting, ProviderId = person.Id, Zone = routine.Visit.Zone };
        visit.TakePlace(routine.Visit.OnDay, routine.Visit.StartTime, routine.Visit.Minutes);
        await site.Portal.Agency.AddAsync(visit);
    }

    private static async Task ScoreAsync(Tablet tablet, PractisedRoutine routine, string code)
    {
        await tablet.Page.EvaluateAsync("location.hash = '#/settings'");
        await tablet.Page.GetByLabel("A short vibration of this device").CheckAsync();
        await tablet.Page.EvaluateAsync($"location.hash = '#/routine/{routine.Routine.Id}'");
        await tablet.Page.GetByLabel("Code on the first person's sheet").FillAsync("12");
        await tablet.ClickAsync("Score as second observer");
        await tablet.Page.GetByText("The code has six letters and digits.").WaitForAsync();
        await tablet.Page.GetByLabel("Code on the first person's sheet").FillAsync(code.ToUpperInvariant());
        await tablet.AssertAccessibleAsync();
        await tablet.ClickAsync("Score as second observer");
        await tablet.Page.GetByText("Second observer. ").WaitForAsync();
        await TryAsync(tablet, "Hoped for", seconds: 13); // the wait of 12 s is over
        await tablet.SaveAsync();
        Assert.Contains("vibrate 200", await tablet.AskedAsync(), StringComparison.Ordinal);
    }

    private static async Task TryAsync(Tablet tablet, string quality, double seconds)
    {
        await tablet.TapAsync("next", then: "cueEnded");
        await tablet.PassAsync(1);
        await tablet.TapAsync("cueEnded", then: "begun");
        await tablet.PassAsync(seconds);
        await tablet.TapAsync("response", then: "quality");
        await tablet.PassAsync(1);
        await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = quality }).TapAsync();
        await tablet.PassAsync(1);
        await tablet.TapAsync("next");
        await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save the practice" }).WaitForAsync();
    }

    /// <summary>A visit on a Sunday, when no other test has one.</summary>
    private static async Task LogAsync(Tablet tablet, PractisedRoutine routine)
    {
        await tablet.Page.EvaluateAsync("location.hash = '#/visit/new'");
        await tablet.Page.GetByLabel("Learner and service").SelectOptionAsync($"{routine.Visit.ServiceId}");
        await tablet.Page.GetByLabel("Day").FillAsync("2026-09-27");
        await tablet.Page.GetByLabel("Start").FillAsync("05:00");
        await tablet.Page.GetByLabel("End").FillAsync("05:30");
        await tablet.Page.GetByLabel(PractisedRoutine.Name).CheckAsync();
        await tablet.Page.GetByText("What filled the hour").ClickAsync();
        await tablet.Page.GetByLabel("Transfers, minutes").FillAsync("15");
        await tablet.AssertAccessibleAsync();
        await tablet.Tab.PictureAsItIsAsync("practise-new-visit");
        await tablet.ClickAsync("Save");
        await tablet.Page.GetByText("The visit is recorded on this device.").WaitForAsync();
    }

    private async Task<Data.Sessions.SessionRow> SessionAsync(PractisedRoutine routine) => await site.Portal.Agency.Portal.ReadAsync(
        site.Portal.Agency.WholeAgency, db => db.Sessions.SingleAsync(s => s.LearnerId == routine.Of.Learner.Id && s.ServiceId == routine.Visit.ServiceId));
}
