using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Core.Practice;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>A routine practised end to end on a touch tablet without network.</summary>
public sealed class PracticeJourneyTests(PortalSite site)
{
    [Fact]
    public async Task Practice_without_network_outlives_a_killed_page_and_reaches_the_portal_once()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await tablet.AssertAccessibleAsync();
        await PictureAsync(tablet, "today");
        await tablet.OfflineAsync(true);
        await tablet.OpenAsync();
        await tablet.TodayAsync();
        await tablet.Page.EvaluateAsync($"location.hash = '#/routine/{routine.Routine.Id}?visit={routine.Visit.Id}'");
        await tablet.Page.GetByText(PractisedRoutine.Caution).WaitForAsync();
        await tablet.AssertAccessibleAsync();
        await PictureAsync(tablet, "cautions");
        await tablet.ClickAsync("Begin");

        await tablet.TapAsync("next", then: "cueEnded");
        await PictureAsync(tablet, "before-the-cue");
        await TryAsync(tablet);
        await tablet.TapAsync("again", then: "cueEnded");
        await tablet.PassAsync(1);
        await tablet.TapAsync("cueEnded", then: "begun");
        await tablet.PassAsync(3);
        await tablet.LetTimeGoAsync();
        await tablet.AssertAccessibleAsync();
        await tablet.KillAsync();

        await tablet.OfflineAsync(true);
        await tablet.Page.GotoAsync("/practise");
        await tablet.EnterPinAsync(Tablet.Pin);
        await tablet.Page.Locator("[data-kind='cueEnded']").WaitForAsync();
        await StopAsync(tablet);
        await tablet.TapAsync("cueEnded", then: "begun");
        await tablet.PassAsync(4);
        await tablet.TapAsync("refusal", then: "next");
        await tablet.PassAsync(1);
        await tablet.TapAsync("next");
        await tablet.Page.GetByLabel("Warm-up, minutes").FillAsync("10");
        await tablet.AssertAccessibleAsync();
        await PictureAsync(tablet, "finish");
        await tablet.SaveAsync();
        Assert.Empty(await routine.PracticesAsync());

        await tablet.Page.EvaluateAsync("location.hash = '#/waiting'");
        await tablet.Page.GetByText($"{PractisedRoutine.Name}, ").WaitForAsync();
        await PictureAsync(tablet, "waits");
        await tablet.OfflineAsync(false);
        await tablet.WaitUntilSentAsync();
        await tablet.AssertAccessibleAsync();
        await PictureAsync(tablet, "sent");
        await AssertStoredOnceAsync(routine);
        tablet.Tab.AssertNoComplaints();
    }

    /// <summary>Begun at 10 s, landed at 22 s with a wait of 12 s: no prompt falls due.</summary>
    private static async Task TryAsync(Tablet tablet)
    {
        await tablet.HoldTimeAsync();
        await tablet.TapAsync("cueEnded", then: "begun");
        await tablet.PassAsync(10);
        await PictureAsync(tablet, "waiting");
        await tablet.TapAsync("begun", then: "stoppedTrying");
        await tablet.PassAsync(12);
        Assert.Equal(0, await tablet.Page.GetByText("wait is over").CountAsync());
        Assert.Equal(0, await tablet.Page.GetByText(PractisedRoutine.FirstPrompt).CountAsync());
        await PictureAsync(tablet, "begun");
        await tablet.TapAsync("response", then: "quality");
        await tablet.PassAsync(1);
        await PictureAsync(tablet, "responded");
        await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Hoped for" }).TapAsync();
    }

    private static async Task StopAsync(Tablet tablet)
    {
        await tablet.TapAsync("stop");
        await tablet.PassAsync(65);
        await tablet.Page.GetByText("1:").First.WaitForAsync();
        Assert.Contains("This is no medical device", await tablet.Page.InnerTextAsync("main"), StringComparison.Ordinal);
        await tablet.AssertAccessibleAsync();
        await PictureAsync(tablet, "stopped");
        await tablet.ClickAsync("It is over");
        await tablet.Page.GetByLabel("Who was told").FillAsync("her mother");
        await PictureAsync(tablet, "afterwards");
        await tablet.ClickAsync("Go on with the routine");
        await tablet.Page.Locator("[data-kind='cueEnded']").WaitForAsync();
    }

    private static async Task AssertStoredOnceAsync(PractisedRoutine routine)
    {
        var practice = Assert.Single(await routine.PracticesAsync());
        Assert.Equal(routine.Visit.Id, practice.VisitId);
        var record = PracticeJson.Read(practice.Record);
        var stop = Assert.Single(record.Stops);
        Assert.Equal("her mother", stop.Told);
        Assert.InRange(stop.ResumedAt!.Value - stop.At, 65_000, 125_000); // with what the machine took for it
        Assert.Equal(new Filled(FilledKind.WarmUp, 10), Assert.Single(record.Filled));
        Assert.Equal("right", record.Conditions.Side);
        var trials = await routine.TrialsAsync();
        Assert.Equal([TrialEnd.Response, TrialEnd.Unknown, TrialEnd.Refused], trials.Select(t => t.Ending));
        Assert.Equal([false, true, false], record.Trials.Select(t => t.Interrupted));
        Assert.Equal((0, ResponseKind.HopedFor, true), (trials[0].PromptsNeeded, trials[0].Response, trials[0].WaitKept));
        Assert.Equal((10_000, 22_000), (trials[0].TimeToRespond, trials[0].Completed));
    }

    private static Task PictureAsync(Tablet tablet, string stage) => tablet.Tab.PictureAsItIsAsync("practise-" + stage);

    [Fact]
    public async Task Hold_set_on_one_tablet_without_network_blocks_there_at_once_and_on_another_at_its_next_contact()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        var address = $"location.hash = '#/routine/{routine.Routine.Id}'";
        await using var first = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await using var second = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await first.OfflineAsync(true);
        await first.Page.EvaluateAsync($"location.hash = '#/hold/{routine.Routine.Id}'");
        await first.Page.GetByLabel("Why").FillAsync("Back from hospital.");
        await first.Page.GetByLabel("On whose word").SelectOptionAsync("parent");
        await first.Page.GetByLabel("Who said so").FillAsync("her mother");
        await first.AssertAccessibleAsync();
        await first.ClickAsync("Set the hold");
        await first.Page.GetByText("The hold is set on this device.").WaitForAsync();
        await AssertBlockedAsync(first, address);

        await second.Page.EvaluateAsync(address);
        await second.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Begin" }).WaitForAsync();
        await first.OfflineAsync(false);
        await first.WaitUntilSentAsync();
        await second.PassAsync(61);
        await AssertBlockedAsync(second, address);
    }

    [Fact]
    public async Task Tablet_without_contact_for_a_day_says_to_ask_before_practising()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await tablet.OfflineAsync(true);
        await tablet.PassAsync(25 * 60 * 60);
        await tablet.Page.EvaluateAsync($"location.hash = '#/routine/{routine.Routine.Id}'");
        await tablet.Page.GetByText("ask before you practise").WaitForAsync();
        await PictureAsync(tablet, "not-checked");
    }

    private static async Task AssertBlockedAsync(Tablet tablet, string address)
    {
        await tablet.Page.EvaluateAsync(address);
        await tablet.Page.GetByText("Hold, told by her mother").WaitForAsync();
        Assert.Equal(0, await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Begin" }).CountAsync());
    }
}
