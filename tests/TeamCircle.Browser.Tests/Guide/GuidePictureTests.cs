using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Testing;

namespace TeamCircle.Browser.Tests.Guide;

/// <summary>Takes the pictures of docs/guide from the demonstration, where <c>TEAMCIRCLE_GUIDE_PICTURES</c> is set. Without it they stay as they are:
/// that each is there is held by GuideFileTests.</summary>
public sealed class GuidePictureTests(PortalSite site)
{
    private const string Odalys = "odalys", Bram = "bram", Marisol = "marisol", Dele = "dele", Ines = "ines@family.example";

    private static readonly string Folder = Path.Combine(SourceTree.Root, "docs", "guide", "pictures");

    /// <param name="Who">Who is signed in.</param>
    /// <param name="Path">Where they begin.</param>
    /// <param name="From">The heading that stands at the top of the picture; null for the head of the page.</param>
    /// <param name="Go">What is followed or pressed first, in order.</param>
    private sealed record Shot(string Name, string Who, string Path, int Width, int Height, string? From = null, params string[] Go);

    private static readonly Shot[] Shots =
    [
        new("today", Odalys, "/", 800, 620),
        new("log-visit", Odalys, "/", 800, 640, null, "Log the visit"),
        new("calendar-week", Odalys, "/calendar", 1000, 740),
        new("routine-card", Bram, "/learners/1/routines", 800, 640, null, "Watering the herbs"),
        new("caseload", Marisol, "/caseload", 800, 470, "Wren Belmares"),
        new("audit", Marisol, "/audit", 390, 760, "Services and goals"),
        new("working", Marisol, "/audit", 800, 470, "Where it stands", "Occupational therapy"),
        new("decide", Marisol, "/", 800, 545, null, "Decide on assistive technology", "Decide"),
        new("make-ups", Marisol, "/make-up-visits", 800, 560, "Proposals"),
        new("close-count", Marisol, "/learners/1/close/1", 800, 560, "What stands in the way"),
        new("write-summary", Marisol, "/learners/1/summaries", 800, 640, null, "Bring the facts together"),
        new("settings", Dele, "/settings", 800, 600),
        new("import", Dele, "/settings/import", 800, 620),
        new("family", Ines, "/family/1?in=en", 390, 720),
        new("familia", Ines, "/family/1?in=es", 390, 720),
    ];

    private const string Sheet = "practice-sheet";

    [Fact]
    public async Task Pictures_of_the_guide_are_taken_from_the_demonstration()
    {
        Assert.SkipUnless(Environment.GetEnvironmentVariable("TEAMCIRCLE_GUIDE_PICTURES") is { Length: > 0 }, "Set TEAMCIRCLE_GUIDE_PICTURES=1 to take them.");
        await using var portal = new DemonstratedPortal(site.Server) { PlainHttp = true };
        await portal.InitializeAsync();
        foreach (var own in Shots.GroupBy(s => s.Who))
        {
            await using var tab = await OpenAsync(portal, own.Key, 800, 640);
            foreach (var shot in own)
                await TakeAsync(tab.Page, shot);
        }
        await TakeSheetAsync(portal);

        Assert.Equal(Shots.Select(s => s.Name).Append(Sheet).Order(StringComparer.Ordinal), Directory.GetFiles(Folder).Select(f => Path.GetFileNameWithoutExtension(f)!).Order(StringComparer.Ordinal));
    }

    private async Task<Tab> OpenAsync(DemonstratedPortal portal, string who, int width, int height)
    {
        var address = new UriBuilder(portal.ClientOptions.BaseAddress) { Host = "localhost" }.Uri;
        var tab = await Tab.OpenAsync(await site.NewBrowserAsync(width, height, hasTouch: who == Bram, address));
        await tab.Page.Context.Clock.InstallAsync(new ClockInstallOptions { TimeDate = DemonstratedPortal.Moment.UtcDateTime });
        await tab.Page.GotoAsync("/sign-in");
        await PortalSite.SignInAsync(tab.Page, who.Contains('@') ? who : who + "@tallowfern.example");
        await tab.Page.WaitForURLAsync(url => !new Uri(url).AbsolutePath.StartsWith("/sign-in", StringComparison.Ordinal));
        return tab;
    }

    private static async Task TakeAsync(IPage page, Shot shot)
    {
        await page.SetViewportSizeAsync(shot.Width, shot.Height);
        await page.GotoAsync(shot.Path);
        foreach (var words in shot.Go)
            await page.Locator("a, button").Filter(new LocatorFilterOptions { HasText = words }).First.ClickAsync();
        await page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        var top = shot.From is null ? 0 : await page.Locator($"h2:has-text(\"{shot.From}\")").First.EvaluateAsync<double>("h => h.getBoundingClientRect().top + scrollY - 16");
        await page.ScreenshotAsync(new PageScreenshotOptions
        {
            FullPage = true,
            Path = Path.Combine(Folder, shot.Name + ".png"),
            Animations = ScreenshotAnimations.Disabled,
            Clip = new Clip { X = 0, Y = (float)top, Width = shot.Width, Height = shot.Height },
        });
    }

    /// <summary>The practice sheet while the learner tries: only there do its largest acts show.</summary>
    private async Task TakeSheetAsync(DemonstratedPortal portal)
    {
        await using var tab = await OpenAsync(portal, Bram, 800, 720);
        var page = tab.Page;
        await page.GotoAsync("/practise");
        await page.GetByLabel("PIN", new PageGetByLabelOptions { Exact = true }).FillAsync("738104");
        await page.GetByLabel("PIN once more").FillAsync("738104");
        await page.GetByLabel("This device is encrypted and locks its screen").CheckAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Set up", Exact = true }).ClickAsync();
        await page.GetByText("Practise: Watering the herbs").First.ClickAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Begin", Exact = true }).ClickAsync();
        await page.Locator("[data-kind='next']").TapAsync();
        await page.Locator("[data-kind='cueEnded']").WaitForAsync();
        await page.Context.Clock.FastForwardAsync(1000); // a second tap at once would be taken for a slip of the hand
        await page.Locator("[data-kind='cueEnded']").TapAsync();
        await page.Locator("[data-kind='begun']").WaitForAsync();
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(Folder, Sheet + ".png"), Animations = ScreenshotAnimations.Disabled });
    }
}
