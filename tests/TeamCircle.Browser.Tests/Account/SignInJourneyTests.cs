using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using NodaTime;
using OtpNet;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;

namespace TeamCircle.Browser.Tests.Account;

/// <summary>From a password alone to Today: an authenticator app, recovery codes, then a passkey, made and shown by the browser's own virtual authenticator.</summary>
public sealed class SignInJourneyTests(PortalSite site)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Newcomer_sets_up_an_app_and_a_passkey_and_comes_back_with_either()
    {
        await NewcomerAsync("keya@tallowfern.example");
        await using var tab = await site.OpenAsync("/sign-in", Tab.Phone);
        var page = tab.Page;
        await SignInAsync(page, "keya@tallowfern.example");
        await page.WaitForURLAsync("**/account/factors");
        await LookAtAsync(tab, "factors-first");

        await page.GetByRole(AriaRole.Link, new() { Name = "Set up an app" }).ClickAsync();
        var secret = AuthenticatorSecret.Of(Base32Encoding.ToBytes((await page.Locator("code").InnerTextAsync()).Replace(" ", "", StringComparison.Ordinal)));
        await LookAtAsync(tab, "authenticator");
        await TypeCodeAsync(page, "Type the code that the app shows now", secret, "Finish");
        await page.GetByText("Your recovery codes, shown only now").WaitForAsync();
        Assert.Equal(10, await page.Locator("ol.codes code").CountAsync());
        await LookAtAsync(tab, "recovery-codes");
        await tab.AssertOneSheetAsync("A4");
        await page.GetByRole(AriaRole.Link, new() { Name = "Go on" }).ClickAsync();
        await page.WaitForURLAsync(url => new Uri(url).PathAndQuery == "/");

        await AddPasskeyAsync(tab);
        await SignOutAsync(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in with a passkey" }).ClickAsync();
        await page.WaitForURLAsync(url => new Uri(url).PathAndQuery == "/");

        await SignOutAsync(page);
        await SignInAsync(page, "keya@tallowfern.example");
        await page.WaitForURLAsync("**/sign-in/second-step");
        await LookAtAsync(tab, "second-step");
        site.Portal.Agency.Clock.Advance(TimeSpan.FromSeconds(30)); // the code that set the app up counts no more
        await TypeCodeAsync(page, "The code that your authenticator app shows now", secret, "Go on");
        await page.WaitForURLAsync(url => new Uri(url).PathAndQuery == "/");
        tab.AssertNoComplaints();
    }

    [Fact]
    public async Task Idle_sign_in_says_before_it_ends_that_it_does_and_goes_on_without_losing_what_is_typed()
    {
        await using var tab = await site.OpenAsync(site.Portal.Team.Odalys, "/");
        var page = tab.Page;
        var (soon, stay) = (page.GetByText("In about five minutes your sign-in ends"), page.GetByRole(AriaRole.Button, new() { Name = "Stay signed in" }));
        await page.Clock.InstallAsync();
        await page.GotoAsync("/visits/new/log");
        var note = page.GetByLabel("Note for the team");
        await note.FillAsync("half a sentence");

        await page.Clock.FastForwardAsync("53:00");
        Assert.False(await soon.IsVisibleAsync());
        await page.Clock.FastForwardAsync("02:00");
        await soon.WaitForAsync();
        await LookAtAsync(tab, "sign-in-ends");
        await note.FocusAsync();
        var answer = await page.RunAndWaitForResponseAsync(() => stay.ClickAsync(), "**/account");
        await soon.WaitForAsync(new() { State = WaitForSelectorState.Hidden });
        Assert.Equal((200, "half a sentence", true), (answer.Status, await note.InputValueAsync(), await note.EvaluateAsync<bool>("field => field === document.activeElement")));

        await page.Clock.FastForwardAsync("59:00");
        await page.GetByText("Your sign-in has ended. What you typed still stands here").WaitForAsync();
        Assert.False(await stay.IsVisibleAsync());
        tab.AssertNoComplaints();
    }

    private static async Task AddPasskeyAsync(Tab tab)
    {
        var page = tab.Page;
        var cdp = await page.Context.NewCDPSessionAsync(page);
        await cdp.SendAsync("WebAuthn.enable");
        var device = await VirtualDeviceAsync(cdp, asksForItsOwner: false);
        await page.GotoAsync("/account/factors");
        await page.GetByLabel("Name of the new passkey").FillAsync("a key that asks nobody");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a passkey" }).ClickAsync();
        await page.GetByText("No passkey was made").WaitForAsync(); // one that does not ask for its owner is no second factor
        await cdp.SendAsync("WebAuthn.removeVirtualAuthenticator", new() { ["authenticatorId"] = device });

        await VirtualDeviceAsync(cdp, asksForItsOwner: true);
        await page.GetByLabel("Name of the new passkey").FillAsync("my phone");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a passkey" }).ClickAsync();
        await page.Locator("li strong", new() { HasText = "my phone" }).WaitForAsync();
        await LookAtAsync(tab, "factors");
    }

    /// <summary>A device of the browser's own that holds passkeys and says yes by itself.</summary>
    private static async Task<string> VirtualDeviceAsync(ICDPSession cdp, bool asksForItsOwner)
    {
        var added = await cdp.SendAsync("WebAuthn.addVirtualAuthenticator", new()
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2",
                ["transport"] = "internal",
                ["hasResidentKey"] = true,
                ["hasUserVerification"] = asksForItsOwner,
                ["isUserVerified"] = asksForItsOwner,
                ["automaticPresenceSimulation"] = true,
            },
        });
        return added!.Value.GetProperty("authenticatorId").GetString()!;
    }

    private static async Task LookAtAsync(Tab tab, string name)
    {
        await tab.AssertAccessibleAsync();
        await tab.PictureAsync(name);
        await tab.AssertFitsAsync(320);
        await tab.Page.SetViewportSizeAsync(Tab.Phone, 900);
    }

    private async Task TypeCodeAsync(IPage page, string label, AuthenticatorSecret secret, string button)
    {
        await page.GetByLabel(label).FillAsync(secret.CodeAt(Instant.FromDateTimeOffset(site.Portal.Agency.Clock.GetUtcNow())));
        await page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
    }

    private static async Task SignInAsync(IPage page, string email)
    {
        await page.GetByLabel("E-mail address").FillAsync(email);
        await page.GetByLabel("Password").FillAsync(CreateDemonstrationAccounts.Passphrase);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
    }

    private static async Task SignOutAsync(IPage page)
    {
        await page.GotoAsync("/sign-out");
        await page.Locator("main").GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await page.WaitForURLAsync("**/sign-in");
    }

    /// <summary>A provider on an account that carries no mark of the demonstration.</summary>
    private async Task NewcomerAsync(string email)
    {
        var agency = site.Portal.Agency;
        var person = await agency.AddAsync(new PersonRow { Email = email, Name = "Keya Marrow" });
        await agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = new LocalDate(2026, 8, 1) });
        await site.Portal.AddAccountsAsync();
        await using var scope = site.Portal.Services.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<AccountDb>().Users.Where(u => u.Email == email)
            .ExecuteUpdateAsync(set => set.SetProperty(u => u.IsDemonstration, false), Stop);
    }
}
