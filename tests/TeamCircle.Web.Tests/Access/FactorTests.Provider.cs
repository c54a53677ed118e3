using System.Net;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Tests.Access;

public sealed partial class FactorTests
{
    [Fact]
    public async Task Agencys_provider_signs_in_who_linked_it_and_its_word_counts_as_two_factors_only_where_it_says_so()
    {
        var (who, app) = await WithAppAsync();
        using var browser = NewBrowser();
        Assert.Equal("/sign-in?said=unknown", await ByProviderAsync(browser, "staff-1")); // the address in its token is somebody's here, and is not looked at
        (await browser.SignInAsync(who.Email)).Dispose();
        Assert.Equal("/", await SecondStepAsync(browser, app.CodeNow()));
        NextStep();
        var page = FilledForm.Parse(await browser.GetStringAsync("/account/provider", Stop));
        Assert.Equal("/account/provider", await ByProviderAsync(browser, "staff-1", page.QuerySelector("main a.main")!.GetAttribute("href")!));

        using var tablet = NewBrowser();
        Assert.Equal(SecondStepPage + "?then=%2Fcaseload", await ByProviderAsync(tablet, "staff-1", "/sign-in/provider/TALLOWFERN?then=/caseload"));
        Assert.Equal("/caseload", await SecondStepAsync(tablet, app.CodeNow(), "/caseload"));
        using var laptop = NewBrowser();
        Assert.Equal("/", await ByProviderAsync(laptop, "staff-1", amr: "mfa"));
        Assert.Equal(HttpStatusCode.OK, (await laptop.GetAsync("/caseload", Stop)).StatusCode);
    }

    [Theory] // 10.2.1, 10.5.1 to 10.5.4
    [InlineData("nonce")]
    [InlineData("no nonce")]
    [InlineData("audience")]
    [InlineData("issuer")]
    [InlineData("state")]
    [InlineData("key")]
    [InlineData("another browser")]
    public async Task Answer_that_is_not_the_one_to_this_question_is_refused(string swapped)
    {
        var who = await NewcomerAsync(Role.Provider);
        await LinkAsync(who, portal.Provider.Issuer, swapped);
        using var browser = NewBrowser();
        using var other = NewBrowser();
        var asked = await AskAsync(browser, "/sign-in/provider/TALLOWFERN");

        var back = portal.Provider.SignIn(asked, swapped, answer => swapped switch
        {
            "nonce" => answer with { Nonce = answer.Nonce + "x" },
            "no nonce" => answer with { Nonce = null },
            "audience" => answer with { Audience = "another-client" },
            "issuer" => answer with { Issuer = portal.OtherProvider.Issuer },
            "key" => answer with { IsForged = true },
            _ => answer,
        });
        var address = swapped == "state" ? new Uri(back.AbsoluteUri.Replace("state=", "state=x", StringComparison.Ordinal)) : back;

        Assert.DoesNotContain("/account", await WhereAsync(swapped == "another browser" ? other : browser, address.PathAndQuery), StringComparison.Ordinal);
        foreach (var one in new[] { browser, other })
            Assert.StartsWith("/sign-in", await WhereAsync(one, "/account/factors"), StringComparison.Ordinal);
    }

    [Fact] // 6.8.1
    public async Task Same_name_at_two_issuers_is_two_accounts()
    {
        var (one, other) = (await NewcomerAsync(Role.Provider), await NewcomerAsync(Role.Provider));
        await LinkAsync(one, portal.Provider.Issuer, "7");
        await LinkAsync(other, portal.OtherProvider.Issuer, "7");
        using var browser = NewBrowser();
        using var second = NewBrowser();

        Assert.Equal("/", await ByProviderAsync(browser, "7", amr: "mfa"));
        Assert.Equal("/", await ByProviderAsync(second, "7", "/sign-in/provider/MARSHLOW", "mfa", portal.OtherProvider));

        Assert.Contains(one.Email.Split('@')[0] + "<", await browser.GetStringAsync("/account", Stop), StringComparison.Ordinal);
        Assert.Contains(other.Email.Split('@')[0] + "<", await second.GetStringAsync("/account", Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Invited_person_joins_by_the_provider_and_where_it_replaces_passwords_nobody_on_the_staff_works_without_it()
    {
        var agency = portal.Other;
        async Task<string> InviteAsync(string email)
        {
            var person = await agency.AddAsync(new PersonRow { Email = email, Name = "Tamsin Orrow" });
            await agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = new LocalDate(2026, 8, 17) });
            var terminal = (await agency.CallerAsync(agency.Terminal))!;
            return (await DoAsync((MakeLink make) => make.RunAsync(terminal, person.Id, Stop))).Value!.Key;
        }
        var key = await InviteAsync("tamsin@marshlow.example");
        using var browser = NewBrowser();
        Assert.Contains("Join with MARSHLOW accounts", await browser.GetStringAsync($"/join/{key}", Stop), StringComparison.Ordinal);
        Assert.Equal("/", await ByProviderAsync(browser, "tamsin", $"/sign-in/provider/MARSHLOW?join={key}", "mfa", portal.OtherProvider));
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/caseload", Stop)).StatusCode);
        Assert.Null(await DoAsync((AccountDb db) => db.Users.Where(u => u.Email == "tamsin@marshlow.example").Select(u => u.PasswordHash).SingleAsync(Stop)));
        using var again = NewBrowser();
        Assert.Equal("/sign-in?said=ended", await ByProviderAsync(again, "somebody else", $"/sign-in/provider/MARSHLOW?join={key}", "mfa", portal.OtherProvider));

        using var byPassword = NewBrowser();
        (await byPassword.SendFormAsync($"/join/{await InviteAsync("dele@marshlow.example")}", new Dictionary<string, string> { ["Input.Password"] = "seven quiet otters waiting" })).Dispose();
        Assert.Equal("/account/provider?then=%2Fcaseload", await WhereAsync(byPassword, "/caseload"));
    }

    private static async Task<Uri> AskAsync(HttpClient browser, string page)
    {
        using var asked = await browser.GetAsync(new Uri(page, UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.Redirect, asked.StatusCode);
        return asked.Headers.Location!;
    }

    /// <summary>The whole way to the provider and back; where it ends.</summary>
    private async Task<string> ByProviderAsync(HttpClient browser, string subject, string page = "/sign-in/provider/TALLOWFERN", string? amr = null, SmallProvider? provider = null)
    {
        var back = (provider ?? portal.Provider).SignIn(await AskAsync(browser, page), subject, amr: amr);
        return await WhereAsync(browser, back.PathAndQuery);
    }

    private async Task LinkAsync(Newcomer who, string issuer, string subject)
    {
        var account = await DoAsync((AccountDb db) => db.Users.Where(u => u.Email == who.Email).Select(u => u.Id).SingleAsync(Stop));
        Assert.NotNull((await DoAsync((LinkProvider link) => link.RunAsync(account, new(issuer, subject), new Place("192.0.2.1", []), Stop))).Value);
    }
}
