using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Core.Practice;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>The same practice by keyboard only, by one switch of the adult, by the learner's own switch, and filled in after.</summary>
public sealed class WaysToPractiseTests(PortalSite site)
{
    private const string LearnersKey = "F7", AdultsKey = "F8";

    [Fact]
    public async Task Same_practice_is_recorded_by_keyboard_by_one_switch_by_the_learners_switch_and_after()
    {
        var routine = await PractisedRoutine.AddAsync(site);
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);

        await ByKeyboardAsync(tablet, routine);
        await ChooseKeysAsync(tablet);
        await ByOneSwitchAsync(tablet, routine);
        await ByLearnersSwitchAsync(tablet, routine);
        await AfterAsync(tablet, routine);
        await tablet.WaitUntilSentAsync();

        var practices = (await routine.PracticesAsync()).ConvertAll(p => PracticeJson.Read(p.Record));
        Assert.Equal([PracticeEntry.Live, PracticeEntry.Live, PracticeEntry.Live, PracticeEntry.Remembered], practices.Select(p => p.Entry));
        Assert.Equal(["Key Key", "Pedal Pedal", "Pedal LearnerSwitch", ""], practices.Select(p => string.Join(' ', p.Trials.Single().Events.Select(e => e.By))));
        Assert.Equal([0, 0, 2, 0], practices.Select(p => p.UnaskedClosures.Count));
        Assert.All(practices, p => Assert.Equal(["AsWritten", "AsWritten"], p.Steps.Select(s => s.Done.ToString())));
        var remembered = (await routine.TrialsAsync()).Single(t => t.Remembered);
        Assert.Equal((1, null), (remembered.PromptsNeeded, remembered.TimeToRespond));
        tablet.Tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Two_choices_made_quickly_both_stay()
    {
        await using var tablet = await Tablet.SetUpAsync(site, site.Portal.Team.Tomasz);
        await tablet.Page.EvaluateAsync("location.hash = '#/settings'");
        await tablet.Page.GetByLabel("4 seconds").WaitForAsync();
        await tablet.Page.EvaluateAsync("""
            () => { for (const which of ['[name=edge][value=left]', '[name=scanSeconds][value="4"]', '[name=end][value=nothing]', '[name=look][value=light]']) document.querySelector(which).click(); }
            """);
        await tablet.Page.Locator("html.light").WaitForAsync(); // the last of them is kept
        await tablet.OpenAsync("#/settings");
        await tablet.Page.GetByLabel("4 seconds").WaitForAsync();
        Assert.Equal(["left", "nothing", "4", "light"], await tablet.Page.EvaluateAsync<string[]>(
            "['edge', 'end', 'scanSeconds', 'look'].map(name => document.querySelector(`[name=${name}]:checked`).value)"));
    }

    private static async Task ByKeyboardAsync(Tablet tablet, PractisedRoutine routine)
    {
        await tablet.Page.EvaluateAsync($"location.hash = '#/routine/{routine.Routine.Id}'");
        await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Begin" }).WaitForAsync();
        await PressAsync(tablet, "document.activeElement.textContent === 'Begin'");
        foreach (var kind in new[] { "next", "cueEnded", "response", "next" })
        {
            await tablet.Page.Locator($"[data-kind='{kind}']").WaitForAsync(); // an act is stored before the next can be done
            await PressAsync(tablet, $"document.activeElement.dataset.kind === '{kind}'");
        }
        await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save the practice" }).WaitForAsync();
        await PressAsync(tablet, "document.activeElement.textContent === 'Save the practice'");
        await tablet.Page.GetByText("The practice is recorded on this device.").WaitForAsync();
    }

    /// <summary>Goes on with the Tab key until the one that is meant has the focus, and presses Enter.</summary>
    private static async Task PressAsync(Tablet tablet, string isThere)
    {
        for (var keys = 0; keys < 60; keys++)
        {
            if (await tablet.Page.EvaluateAsync<bool>($"() => Boolean({isThere})"))
            {
                await tablet.Page.Keyboard.PressAsync("Enter");
                return;
            }
            await tablet.Page.Keyboard.PressAsync("Tab");
        }
        Assert.Fail($"The keyboard never came to: {isThere}");
    }

    private static async Task ChooseKeysAsync(Tablet tablet)
    {
        await tablet.Page.EvaluateAsync("location.hash = '#/settings'");
        var choose = tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Choose the key" });
        await choose.First.ClickAsync();
        await tablet.Page.Keyboard.PressAsync(LearnersKey);
        await tablet.Page.GetByText($"Key: {LearnersKey}").WaitForAsync();
        await choose.Last.ClickAsync();
        await tablet.Page.Keyboard.PressAsync(LearnersKey);
        await tablet.Page.GetByText("They are never the same.").WaitForAsync();
        await choose.Last.ClickAsync();
        await tablet.Page.Keyboard.PressAsync(AdultsKey);
        await tablet.Page.GetByText($"Key: {AdultsKey}").WaitForAsync();
        await tablet.Page.GetByLabel("Chooses in turn").CheckAsync();
        await tablet.Page.GetByLabel("1 second").CheckAsync();
        await tablet.AssertAccessibleAsync();
        await tablet.Tab.PictureAsItIsAsync("practise-settings");
    }

    private static async Task ByOneSwitchAsync(Tablet tablet, PractisedRoutine routine)
    {
        await tablet.BeginAsync(routine);
        foreach (var kind in new[] { "next", "cueEnded", "response", "next" })
            await SwitchAsync(tablet, $"[data-kind='{kind}']");
        await tablet.Page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Save the practice" }).WaitForAsync();
        await SwitchAsync(tablet, "[data-scan='main']");
        await tablet.Page.GetByText("The practice is recorded on this device.").WaitForAsync();
    }

    /// <summary>Lets the mark go round until it stands on what is meant, and closes the switch.</summary>
    private static async Task SwitchAsync(Tablet tablet, string selector)
    {
        await tablet.Page.Locator(selector).WaitForAsync();
        for (var steps = 0; steps < 30; steps++)
        {
            if (await tablet.Page.Locator(selector + ".marked").CountAsync() > 0)
            {
                await tablet.Page.Keyboard.PressAsync(AdultsKey);
                return;
            }
            await tablet.PassAsync(1);
        }
        Assert.Fail($"The mark never came to: {selector}");
    }

    private static async Task ByLearnersSwitchAsync(Tablet tablet, PractisedRoutine routine)
    {
        await tablet.BeginAsync(routine);
        await tablet.Page.Keyboard.PressAsync(LearnersKey);
        await SwitchAsync(tablet, "[data-kind='next']");
        await SwitchAsync(tablet, "[data-kind='cueEnded']");
        await tablet.Page.Locator("[data-kind='begun']").WaitForAsync();
        await tablet.Page.Keyboard.PressAsync(LearnersKey);
        await tablet.Page.Locator("[data-kind='quality']").First.WaitForAsync();
        await tablet.Page.Keyboard.PressAsync(LearnersKey);
        await SwitchAsync(tablet, "[data-kind='next']");
        await tablet.SaveAsync();
    }

    private static async Task AfterAsync(Tablet tablet, PractisedRoutine routine)
    {
        await tablet.Page.EvaluateAsync($"location.hash = '#/routine/{routine.Routine.Id}'");
        await tablet.ClickAsync("Fill in after");
        await tablet.Page.GetByLabel("Prompts needed").SelectOptionAsync("1");
        await tablet.Page.GetByLabel("About how long, seconds").FillAsync("20");
        await tablet.AssertAccessibleAsync();
        await tablet.Tab.PictureAsItIsAsync("practise-fill-in");
        await tablet.ClickAsync("Save");
        await tablet.Page.GetByText("marked remembered.").WaitForAsync();
    }
}
