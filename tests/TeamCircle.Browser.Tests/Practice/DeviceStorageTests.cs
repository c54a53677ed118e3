using System.Text.RegularExpressions;
using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Data.Devices;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>What lies on a device, for whom, and what is left of it.</summary>
public sealed class DeviceStorageTests(PortalSite site)
{
    private const string Canary = "heron by the window";

    private static string[] Clear(PractisedRoutine routine) =>
        [Canary, routine.Of.Learner.Name, routine.Of.Learner.Code, PractisedRoutine.Name, PractisedRoutine.Caution, "Tomasz", "Priya"];

    private static void AssertSealed(string dump, PractisedRoutine routine)
    {
        Assert.All(Clear(routine), text => Assert.DoesNotContain(text, dump, StringComparison.OrdinalIgnoreCase));
        Assert.DoesNotContain("extractable true", dump, StringComparison.Ordinal);
    }

    private static string[] Cached(string dump) => [.. dump.Split('\n').Where(l => l.StartsWith("cached ", StringComparison.Ordinal)).Select(l => l[7..])];

    [Fact]
    public async Task Nothing_lies_in_clear_sign_out_leaves_what_was_not_sent_and_the_next_sign_in_sends_it()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await tablet.Page.RouteAsync("**/device/operations", route => route.AbortAsync());
        tablet.Tab.Allow("ERR_FAILED");
        await tablet.BeginAsync(routine);
        await tablet.TapAsync("next", then: "cueEnded");
        await tablet.PassAsync(1);
        await tablet.TapAsync("cueEnded", then: "begun");
        await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Done differently" }).TapAsync();
        await tablet.Page.GetByLabel("Why, in a word").FillAsync(Canary);
        await tablet.ClickAsync("Save");
        await tablet.Page.GetByText("Done differently: why?").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });
        var going = await tablet.DumpAsync();
        AssertSealed(going, routine);
        Assert.Contains("own acts 4", going, StringComparison.Ordinal);
        Assert.All(Cached(going), path => Assert.Matches("^/(practise.html|favicon.svg|css/|js/practise/|lib/fonts)", path));
        await tablet.ClickAsync("End the practice");
        await tablet.SaveAsync();

        await tablet.Page.GotoAsync("/sign-out");
        await tablet.Page.GetByText("Not sent yet from this device: 1 record.").WaitForAsync();
        await tablet.Tab.PictureAsItIsAsync("practise-sign-out");
        await tablet.ClickAsync("Sign out");
        await tablet.Page.WaitForURLAsync("**/sign-in");
        var after = await tablet.DumpAsync();
        AssertSealed(after, routine);
        Assert.Contains("own queue 1\n", after, StringComparison.Ordinal);
        Assert.All(new[] { "acts", "ended", "kept", "pictures" }, store => Assert.Contains($"own {store} 0\n", after, StringComparison.Ordinal));
        Assert.Contains("wrapped=null", after, StringComparison.Ordinal);
        await AssertClosedAsync(tablet);

        await tablet.Page.UnrouteAllAsync();
        await tablet.SignInAsync(site.Portal.Team.Tomasz);
        await tablet.FillPinsAsync();
        await tablet.ClickAsync("Open");
        await tablet.TodayAsync();
        await tablet.WaitUntilSentAsync();
        var practice = Assert.Single(await routine.PracticesAsync());
        Assert.Contains(Canary, practice.Record, StringComparison.Ordinal);
    }

    private static async Task AssertClosedAsync(Tablet tablet)
    {
        tablet.Tab.Allow("401");
        await tablet.Page.GotoAsync("/practise");
        await tablet.Page.GetByText("Not sent yet, and safe: 1 record.").WaitForAsync();
        Assert.Equal(0, await tablet.Page.GetByLabel("PIN").CountAsync());
    }

    [Fact]
    public async Task Two_people_on_one_tablet_neither_see_nor_send_each_others_records()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await tablet.OfflineAsync(true);
        await tablet.AddProbeAsync(routine, 40);
        await tablet.Page.GotoAsync("about:blank"); // so that nothing is sent when there is a network again
        await tablet.OfflineAsync(false);
        await tablet.Page.Context.ClearCookiesAsync();

        await tablet.SignInAsync(site.Portal.Team.Priya);
        await tablet.EnrolAsync();
        Assert.DoesNotContain(routine.Of.Learner.Code, await tablet.Page.InnerTextAsync("main"), StringComparison.Ordinal);
        await tablet.Page.EvaluateAsync("location.hash = '#/waiting'");
        await tablet.Page.GetByText("Nothing waits.").WaitForAsync();
        Assert.Equal(1, await tablet.QueuedAsync());

        await tablet.Page.GotoAsync("about:blank");
        await tablet.Page.GotoAsync("/practise");
        await tablet.ClickAsync("Open as TA");
        await tablet.Page.GetByText("This device is TA's.").WaitForAsync(); // else the PIN is typed into the other person's form
        await tablet.EnterPinAsync(Tablet.Pin);
        await tablet.TodayAsync();
        await tablet.Page.EvaluateAsync("location.hash = '#/waiting'");
        await tablet.Page.GetByText("Somebody else is signed in to the portal.").WaitForAsync();
        Assert.Empty(await routine.ProbesAsync());

        await tablet.Page.Context.ClearCookiesAsync();
        await tablet.SignInAsync(site.Portal.Team.Tomasz);
        await tablet.EnterPinAsync(Tablet.Pin);
        await tablet.TodayAsync();
        await tablet.WaitUntilSentAsync();
        Assert.Equal(site.Portal.Team.Tomasz.Id, Assert.Single(await routine.ProbesAsync()).ProviderId);
    }

    [Fact]
    public async Task Device_without_room_says_so_and_drops_nothing()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz, quota: 3_000_000);
        await tablet.OfflineAsync(true);
        await tablet.AddProbeAsync(routine, 40);
        await tablet.FillUpAsync();
        await tablet.Page.EvaluateAsync($"location.hash = '#/goal/{routine.Of.Goal.Id}'");
        await tablet.Page.GetByLabel("Value").FillAsync("50");
        await tablet.Page.GetByLabel("Conditions").FillAsync(string.Concat(Enumerable.Repeat("lamp on the left ", 50)));
        await tablet.ClickAsync("Save");
        await tablet.Page.GetByText("This device has no room left.").WaitForAsync();
        Assert.Equal("50", await tablet.Page.GetByLabel("Value").InputValueAsync());
        Assert.Equal(1, await tablet.QueuedAsync());
        await tablet.SetQuotaAsync(site, null);
        await tablet.ClickAsync("Save");
        await tablet.Page.GetByText("The probe is recorded on this device.").WaitForAsync();
        await tablet.OfflineAsync(false);
        await tablet.WaitUntilSentAsync();
        Assert.Equal([40m, 50m], (await routine.ProbesAsync()).Select(p => p.Value).Order());
    }

    [Fact]
    public async Task Device_that_was_taken_out_of_use_sends_what_it_has_and_wipes_the_rest_at_its_next_contact()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        var (agency, tomasz) = (site.Portal.Agency, site.Portal.Team.Tomasz);
        await using var tablet = await Tablet.SetUpAsync(site, tomasz);
        await tablet.OfflineAsync(true);
        await tablet.AddProbeAsync(routine, 40);
        var device = Guid.Parse(Regex.Match(await tablet.DumpAsync(), "device=([0-9a-f-]{36})").Groups[1].Value);
        await agency.Get<RevokeDevice>().RunAsync((await agency.CallerAsync(tomasz.Id))!, Guid.CreateVersion7(), new(device), TestContext.Current.CancellationToken);
        await tablet.OfflineAsync(false);
        await tablet.Page.GetByText("This device was revoked.").WaitForAsync();

        Assert.Equal(40, Assert.Single(await routine.ProbesAsync()).Value);
        Assert.DoesNotContain("\nown ", await tablet.DumpAsync(), StringComparison.Ordinal);
        Assert.Contains("practise doors 0\n", await tablet.DumpAsync(), StringComparison.Ordinal);
    }
}
