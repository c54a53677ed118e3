using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using OtpNet;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Tests.Access;

/// <summary>
/// The second step: set up, asked, asked again, lost; and an identity provider in place of the password. Everybody here is new to the portal, on an account that carries no mark of the demonstration.
/// The numbers are those of OWASP ASVS 5.0 (from a stored copy of its list).
/// </summary>
public sealed partial class FactorTests(FactorPortal portal) : IClassFixture<FactorPortal>
{
    private const string SecondStepPage = "/sign-in/second-step";
    private static int _people;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact] // 6.3.3, 6.5.1
    public async Task Staff_with_a_password_alone_set_up_an_app_and_each_code_opens_the_portal_once()
    {
        var who = await NewcomerAsync(Role.Provider);
        using var browser = NewBrowser();
        using var first = await browser.SignInAsync(who.Email);
        Assert.Equal("/account/factors", first.Headers.Location?.OriginalString);
        Assert.Equal("/account/factors?then=%2Fcaseload", await WhereAsync(browser, "/caseload"));
        Assert.Equal(HttpStatusCode.Unauthorized, (await browser.GetAsync("/device/contact", Stop)).StatusCode);

        var app = await SetUpAsync(browser);
        Assert.Equal(10, app.RecoveryCodes.Distinct().Count());
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/caseload", Stop)).StatusCode);

        using var tablet = NewBrowser();
        using var second = await tablet.SignInAsync(who.Email, then: "/caseload");
        Assert.Equal(SecondStepPage + "?then=%2Fcaseload", second.Headers.Location?.OriginalString);
        foreach (var page in new[] { "/caseload", "/account", "/account/factors", "/account/authenticator", "/account/password", $"/learners/{portal.Team.Wren}" })
            Assert.StartsWith(SecondStepPage, await WhereAsync(tablet, page), StringComparison.Ordinal);
        Assert.Null(await SecondStepAsync(tablet, app.CodeNow())); // the code that set it up, within its half minute
        NextStep();
        var code = app.CodeNow();
        Assert.Equal("/caseload", await SecondStepAsync(tablet, code, "/caseload"));

        using var thief = NewBrowser();
        (await thief.SignInAsync(who.Email)).Dispose();
        Assert.Null(await SecondStepAsync(thief, code));
        Assert.StartsWith(SecondStepPage, await WhereAsync(thief, "/caseload"), StringComparison.Ordinal);
    }

    [Fact] // 6.5.1
    public async Task Of_two_browsers_that_send_one_code_at_the_same_moment_one_gets_in()
    {
        var (who, app) = await WithAppAsync();
        using var one = NewBrowser();
        using var other = NewBrowser();
        (await one.SignInAsync(who.Email)).Dispose();
        (await other.SignInAsync(who.Email)).Dispose();

        var answers = await Task.WhenAll(SecondStepAsync(one, app.CodeNow()), SecondStepAsync(other, app.CodeNow()));

        Assert.Single(answers, a => a is not null);
    }

    [Fact]
    public async Task Recovery_code_opens_once_and_new_ones_end_the_old()
    {
        var (who, app) = await WithAppAsync();
        using var browser = NewBrowser();
        (await browser.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(browser, app.RecoveryCodes[0].ToUpperInvariant().Replace("-", " ", StringComparison.Ordinal)));
        Assert.Contains("9 not used", await browser.GetStringAsync("/account/factors", Stop), StringComparison.Ordinal);
        using var made = await browser.SendFormAsync("/account/recovery-codes", new Dictionary<string, string>());
        var newer = CodesIn(await made.Content.ReadAsStringAsync(Stop));

        using var again = NewBrowser();
        (await again.SignInAsync(who.Email)).Dispose();
        Assert.Null(await SecondStepAsync(again, app.RecoveryCodes[0])); // used
        Assert.Null(await SecondStepAsync(again, app.RecoveryCodes[1])); // ended by the new ones
        Assert.Equal("/", await SecondStepAsync(again, newer[9]));
        var stored = await DoAsync((AccountDb db) => db.RecoveryCodes.Select(c => c.CodeHash).ToListAsync(Stop));
        Assert.All(stored, hash => Assert.Equal(32, hash.Length));
    }

    [Fact] // 6.4.3
    public async Task New_password_by_a_link_leaves_the_second_step_where_it_was()
    {
        var (who, app) = await WithAppAsync();
        var terminal = (await portal.Agency.CallerAsync(portal.Agency.Terminal))!;
        var link = (await DoAsync((MakeLink make) => make.RunAsync(terminal, who.Person, Stop))).Value!;
        using var browser = NewBrowser();
        (await browser.SendFormAsync(link.Path, new Dictionary<string, string> { ["Input.Password"] = "nine herons over marshes" })).Dispose();

        using var answer = await browser.SignInAsync(who.Email, "nine herons over marshes");

        Assert.Equal(SecondStepPage, answer.Headers.Location?.OriginalString);
        Assert.StartsWith(SecondStepPage, await WhereAsync(browser, "/caseload"), StringComparison.Ordinal);
        Assert.Equal("/", await SecondStepAsync(browser, app.CodeNow()));
    }

    [Theory] // 7.5.1
    [InlineData("/account/recovery-codes", "", "")]
    [InlineData("/account/factors?handler=RemoveAuthenticator", "/account/factors", "")]
    [InlineData("/account/email", "", "Input.Email=newer@tallowfern.example")]
    public async Task Sixteen_minutes_after_signing_in_password_and_code_are_asked_again_before_a_change(string act, string form, string fields)
    {
        var (who, app) = await WithAppAsync();
        using var browser = NewBrowser();
        (await browser.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(browser, app.CodeNow()));
        portal.Agency.Clock.Advance(TimeSpan.FromMinutes(16));
        Task<string> TryAsync(string password, string code) => SendAsync(browser, act, form, fields, password, code);
        var before = await EventsAsync(who);

        Assert.Contains("Enter your own password", await TryAsync("", ""), StringComparison.Ordinal);
        Assert.Contains("Enter the code", await TryAsync(CreateDemonstrationAccounts.Passphrase, "000000"), StringComparison.Ordinal);
        Assert.Equal(before, await EventsAsync(who));
        Assert.DoesNotContain("Enter ", await TryAsync(CreateDemonstrationAccounts.Passphrase, app.CodeNow()), StringComparison.Ordinal);
        Assert.NotEqual(before, await EventsAsync(who));
    }

    [Fact]
    public async Task Administrator_removes_lost_factors_after_a_reason_and_the_person_sets_up_new_ones()
    {
        var (who, app) = await WithAppAsync();
        using var browser = NewBrowser();
        (await browser.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(browser, app.CodeNow()));
        var administrator = await WithAppAsync(Role.Administrator);
        using var office = NewBrowser();
        (await office.SignInAsync(administrator.Who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(office, administrator.App.CodeNow()));
        var page = $"/settings/people/{who.Person}/second-step";

        using var refused = await office.SendFormAsync(page, new Dictionary<string, string> { ["Input.Reason"] = "lost" });
        Assert.Equal(HttpStatusCode.OK, refused.StatusCode);
        using var removed = await office.SendFormAsync(page, new Dictionary<string, string> { ["Input.Reason"] = "phone stolen on Tuesday, called me" });
        Assert.Equal($"/settings/people/{who.Person}", removed.Headers.Location?.OriginalString);

        Assert.StartsWith("/sign-in", await WhereAsync(browser, "/caseload"), StringComparison.Ordinal);
        using var again = await browser.SignInAsync(who.Email);
        Assert.Equal("/account/factors", again.Headers.Location?.OriginalString);
        Assert.Contains(await EventsAsync(who), e => e.Contains("phone stolen on Tuesday", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Family_signs_in_with_a_password_alone_until_the_agency_wants_more()
    {
        var who = await NewcomerAsync(Role.Family, Relation.Family, portal.Team.Jonah);
        using var browser = NewBrowser();
        using var signedIn = await browser.SignInAsync(who.Email);
        var page = $"/family/{portal.Team.Jonah}";
        Assert.Equal(page, signedIn.Headers.Location?.OriginalString);
        var administrator = (await NewcomerAsync(Role.Administrator)).Person;
        var caller = (await portal.Agency.CallerAsync(administrator))!;
        async Task SetAsync(bool need)
        {
            var now = await DoAsync((SetSignInRule set) => set.ReadAsync(portal.Agency.Id, Stop));
            var saved = await DoAsync((SetSignInRule set) => set.RunAsync(caller, now with { FamiliesNeedSecondFactor = need, Reason = "decided by the board" }, Stop));
            Assert.NotNull(saved.Value);
        }

        await SetAsync(true);
        try
        {
            Assert.StartsWith("/account/factors", await WhereAsync(browser, page), StringComparison.Ordinal);
            Assert.StartsWith("/account/factors", await WhereAsync(browser, "/account"), StringComparison.Ordinal);
        }
        finally
        {
            await SetAsync(false);
        }
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync(page, Stop)).StatusCode);
    }

    [Fact]
    public async Task Form_sent_when_the_sign_in_had_ended_is_saved_after_password_and_code()
    {
        var (who, app) = await WithAppAsync(Role.Provider, portal.Team.Wren);
        using var browser = NewBrowser();
        (await browser.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(browser, app.CodeNow()));
        NextStep();
        var visit = await portal.Team.VisitAsync(provider: who.Person, day: new LocalDate(2026, 9, 8));
        var form = (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log")).Type("Input.Note", "She looked for <ten> seconds & smiled");
        (await browser.SendFormAsync("/sign-out", new Dictionary<string, string>())).Dispose();

        using var late = await form.SendAsync();
        Assert.Equal(HttpStatusCode.Unauthorized, late.StatusCode);
        using var asked = await (await FilledForm.OfAsync(browser, late)).Type("Input.Email", who.Email).Type("Input.Password", CreateDemonstrationAccounts.Passphrase).SendAsync();
        using var kept = await (await FilledForm.OfAsync(browser, asked)).Type("Code", app.CodeNow()).SendAsync();
        using var saved = await (await FilledForm.OfAsync(browser, kept)).SendAsync();

        Assert.Equal($"/visits/{visit.Id}", saved.Headers.Location?.OriginalString);
    }

    [Fact] // 6.3.1
    public async Task Five_wrong_codes_stop_strangers_and_not_a_known_browser()
    {
        var (who, app) = await WithAppAsync();
        using var own = NewBrowser();
        (await own.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(own, app.CodeNow()));
        (await own.SendFormAsync("/sign-out", new Dictionary<string, string>())).Dispose();
        NextStep();
        using var stranger = NewBrowser();
        (await stranger.SignInAsync(who.Email)).Dispose();
        for (var i = 0; i < 5; i++)
            Assert.Null(await SecondStepAsync(stranger, "000000"));

        using var elsewhere = NewBrowser();
        (await elsewhere.SignInAsync(who.Email)).Dispose();
        Assert.Null(await SecondStepAsync(elsewhere, app.CodeNow())); // right, and told to wait all the same
        (await own.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(own, app.CodeNow()));
    }

    [Fact]
    public async Task New_address_counts_once_its_link_was_opened_there_and_the_old_one_is_told()
    {
        var (who, app) = await WithAppAsync();
        using var browser = NewBrowser();
        (await browser.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(browser, app.CodeNow()));
        var newer = "moved-" + who.Email;
        (await browser.SendFormAsync("/account/email", new Dictionary<string, string> { ["Input.Email"] = newer })).Dispose();
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/account", Stop)).StatusCode); // nothing has changed yet
        var key = await LinkInOutboxAsync(who);

        using var confirmed = await NewBrowser().SendFormAsync($"/new-email/{key}", new Dictionary<string, string>());

        Assert.Equal("/sign-in", confirmed.Headers.Location?.OriginalString);
        Assert.StartsWith("/sign-in", await WhereAsync(browser, "/account"), StringComparison.Ordinal);
        using var old = await browser.SignInAsync(who.Email);
        Assert.Equal(HttpStatusCode.OK, old.StatusCode);
        NextStep();
        (await browser.SignInAsync(newer)).Dispose();
        Assert.Equal("/", await SecondStepAsync(browser, app.CodeNow()));
        var listed = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.People.SingleAsync(p => p.Id == who.Person, Stop), Stop);
        Assert.Equal(newer, listed.Email);
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync($"/new-email/{key}", Stop)).StatusCode);
    }

    private sealed record Newcomer(string Email, int Person);

    private sealed record App(FactorPortal Portal, byte[] Secret, List<string> RecoveryCodes)
    {
        public string CodeNow() => AuthenticatorSecret.Of(Secret).CodeAt(Instant.FromDateTimeOffset(Portal.Agency.Clock.GetUtcNow()));
    }

    [GeneratedRegex("<code>([2-9a-z]{4}(?:-[2-9a-z]{4}){5})</code>")]
    private static partial Regex RecoveryCode();

    [GeneratedRegex("<code>([A-Z2-7 ]{32,})</code>")]
    private static partial Regex TypedKey();

    private static List<string> CodesIn(string page) => [.. RecoveryCode().Matches(page).Select(m => m.Groups[1].Value)];

    private HttpClient NewBrowser() => portal.CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });

    private void NextStep() => portal.Agency.Clock.Advance(TimeSpan.FromSeconds(30));

    private async Task<T> DoAsync<TService, T>(Func<TService, Task<T>> work) where TService : notnull
    {
        await using var scope = portal.Services.CreateAsyncScope();
        return await work(scope.ServiceProvider.GetRequiredService<TService>());
    }

    private async Task<Newcomer> NewcomerAsync(Role role, Relation relation = Relation.Team, params int[] learners)
    {
        var name = $"newcomer{Interlocked.Increment(ref _people)}";
        var person = await portal.Team.PersonAsync(name, role, relation, learners);
        await portal.AddAccountsAsync();
        var email = $"{name}@tallowfern.example";
        await DoAsync((AccountDb db) => db.Users.Where(u => u.Email == email).ExecuteUpdateAsync(set => set.SetProperty(u => u.IsDemonstration, false), Stop));
        return new(email, person);
    }

    /// <summary>Somebody who has set up an app in another browser; the code of this moment is not used yet.</summary>
    private async Task<(Newcomer Who, App App)> WithAppAsync(Role role = Role.Provider, params int[] learners)
    {
        var who = await NewcomerAsync(role, Relation.Team, learners);
        using var browser = NewBrowser();
        (await browser.SignInAsync(who.Email)).Dispose();
        var app = await SetUpAsync(browser);
        NextStep();
        return (who, app);
    }

    private async Task<App> SetUpAsync(HttpClient browser)
    {
        var form = await FilledForm.OpenAsync(browser, "/account/authenticator");
        var secret = Base32Encoding.ToBytes(TypedKey().Match(form.Page.DocumentElement.OuterHtml).Groups[1].Value.Replace(" ", "", StringComparison.Ordinal));
        var app = new App(portal, secret, []);
        using var answer = await form.Type("NewCode", app.CodeNow()).SendAsync();
        return app with { RecoveryCodes = CodesIn(await answer.Content.ReadAsStringAsync(Stop)) };
    }

    /// <summary>Where a right code leads; null where it is refused.</summary>
    private static async Task<string?> SecondStepAsync(HttpClient browser, string code, string then = "")
    {
        using var answer = await browser.SendFormAsync(SecondStepPage, new Dictionary<string, string> { ["Code"] = code, ["Then"] = then });
        return answer.Headers.Location?.OriginalString;
    }

    private static async Task<string> WhereAsync(HttpClient browser, string page)
    {
        using var answer = await browser.GetAsync(new Uri(page, UriKind.Relative), Stop);
        return answer.Headers.Location is { } to ? (to.IsAbsoluteUri ? to.PathAndQuery : to.OriginalString) : $"{(int)answer.StatusCode}";
    }

    private static async Task<string> SendAsync(HttpClient browser, string act, string form, string field, string password, string code)
    {
        var fields = new Dictionary<string, string> { ["Password"] = password, ["Code"] = code };
        if (field.Split('=') is [var name, var value])
            fields[name] = value;
        using var answer = await browser.SendFormAsync(act, fields, tokenFrom: form.Length == 0 ? act : form);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Stop));
    }

    /// <summary>What changed on the account: without tries, which are events too.</summary>
    private async Task<List<string>> EventsAsync(Newcomer who)
    {
        string[] tries = [AccountEvent.SignedIn, AccountEvent.SignInRefused, AccountEvent.PasswordGivenAgain, AccountEvent.SecondStepTaken, AccountEvent.SecondStepRefused];
        return await DoAsync((AccountDb db) => db.Events.Where(e => db.Memberships.Any(m => m.PersonId == who.Person && m.AccountId == e.AccountId) && !tries.Contains(e.Kind))
            .OrderBy(e => e.Id).Select(e => e.Kind + " " + e.Detail).ToListAsync(Stop));
    }

    /// <summary>The tail of the link that waits to go to a new address, as the portal itself would open it.</summary>
    private async Task<string> LinkInOutboxAsync(Newcomer who)
    {
        var row = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Outbox
            .Where(o => o.PersonId == who.Person && o.Kind == Core.Mail.MailKind.NewEmail).OrderByDescending(o => o.Id).FirstAsync(Stop), Stop);
        return portal.Services.GetDataProtector("TeamCircle.MailSecrets").Unprotect(row.Secret!);
    }
}
