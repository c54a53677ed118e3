using Microsoft.Playwright;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Tests;

namespace TeamCircle.Browser.Tests.Browser;

/// <summary>One portal on a real port and one Chromium, for all browser tests.</summary>
/// <remarks>All tests share its database: a test that writes uses a learner of its own.</remarks>
public sealed class PortalSite : IAsyncLifetime
{
    private readonly PgAssembly _server = new();
    private TeamPortal? _portal;
    private IPlaywright? _playwright;
    private IBrowser? _chromium;

    /// <summary>The host is <c>localhost</c>, which browsers trust like https.</summary>
    public Uri Address { get; private set; } = new("http://localhost");

    /// <summary>The server on which the portal's database lies, for a test that needs another portal.</summary>
    internal PgAssembly Server => _server;

    /// <summary>The portal, to arrange data and to look at its database and log.</summary>
    public TeamPortal Portal => _portal ?? throw new InvalidOperationException("The portal is started before the first test.");

    public async ValueTask InitializeAsync()
    {
        await _server.InitializeAsync();
        _portal = new TeamPortal(_server) { PlainHttp = true };
        _portal.UseKestrel(0); // before anything asks for its services
        await _portal.InitializeAsync();
        _portal.StartServer();
        Address = new UriBuilder(_portal.ClientOptions.BaseAddress) { Host = "localhost" }.Uri;
        _playwright = await Playwright.CreateAsync();
        _chromium = await Chromium.LaunchAsync(_playwright);
    }

    /// <summary>A new browser window of somebody who has signed in, at the page.</summary>
    public async Task<Tab> OpenAsync(PersonRow person, string path, int width = Tab.Desk)
    {
        var tab = await OpenAsync("/sign-in?then=" + Uri.EscapeDataString(path), width);
        await SignInAsync(tab.Page, person, path);
        return tab;
    }

    // The page itself is asked: what the driver hears of a load, it missed once while two pages followed each other.
    private const string Loaded = "() => document.readyState === 'complete' || new Promise(loaded => addEventListener('load', () => loaded(true), { once: true }))";

    /// <summary>Fills the sign-in page that the window shows, and waits for the page that follows.</summary>
    public static async Task SignInAsync(IPage page, PersonRow person, string then)
    {
        await SignInAsync(page, person.Email);
        await page.WaitForURLAsync(url => new Uri(url).PathAndQuery == then, new() { WaitUntil = WaitUntilState.Commit });
        await page.EvaluateAsync(Loaded);
    }

    /// <summary>Fills the sign-in page that the window shows.</summary>
    internal static async Task SignInAsync(IPage page, string email)
    {
        await page.GetByLabel("E-mail address").FillAsync(email);
        await page.GetByLabel("Password").FillAsync(CreateDemonstrationAccounts.Passphrase);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Sign in", Exact = true }).ClickAsync();
    }

    /// <summary>A new, signed-out browser window with nothing stored, at the page.</summary>
    public async Task<Tab> OpenAsync(string path, int width = Tab.Desk)
    {
        var tab = await Tab.OpenAsync(await NewBrowserAsync(width, 900));
        await tab.Page.GotoAsync(path);
        return tab;
    }

    /// <summary>The same person's window anew: signed in, of the same width, with an empty store.</summary>
    public async Task<IBrowserContext> AgainWithNothingStoredAsync(Tab tab)
    {
        var context = await NewBrowserAsync(tab.Page.ViewportSize!.Width, tab.Page.ViewportSize.Height);
        await context.AddCookiesAsync((await tab.Page.Context.CookiesAsync()).Select(c => new Cookie { Name = c.Name, Value = c.Value, Domain = c.Domain, Path = c.Path, HttpOnly = c.HttpOnly, Secure = c.Secure, SameSite = c.SameSite }));
        return context;
    }

    /// <summary>A touch tablet with nothing stored, whose clock begins at the portal's time and goes on from there.</summary>
    public async Task<IBrowserContext> NewTabletAsync()
    {
        var context = await NewBrowserAsync(1024, 768, hasTouch: true);
        await context.Clock.InstallAsync(new ClockInstallOptions { TimeDate = Portal.Agency.Clock.GetUtcNow().UtcDateTime });
        return context;
    }

    /// <param name="at">Null for the portal of all tests.</param>
    internal async Task<IBrowserContext> NewBrowserAsync(int width, int height, bool hasTouch = false, Uri? at = null)
    {
        var context = await _chromium!.NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = (at ?? Address).ToString(),
            ViewportSize = new ViewportSize { Width = width, Height = height },
            HasTouch = hasTouch,
            TimezoneId = "America/Los_Angeles",
            Locale = "en-US",
        });
        context.SetDefaultTimeout(30_000);
        return context;
    }

    public async ValueTask DisposeAsync()
    {
        if (_chromium is not null)
            await _chromium.DisposeAsync();
        _playwright?.Dispose();
        if (_portal is not null)
            await _portal.DisposeAsync();
        await _server.DisposeAsync();
    }
}
