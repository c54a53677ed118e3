using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.People;

/// <summary>Looking after people: inviting, joining, roles with days, links, ending.</summary>
public sealed partial class PeoplePagesTests(AccessWorld world) : IClassFixture<AccessWorld>
{
    private const string Password = "seven quiet otters waiting";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Invited_person_joins_by_the_link_once_and_begins_at_once()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        var link = await InviteAsync(administrator, "tomasz@tallowfern.example", "Tomasz Abiolek", Role.Provider);

        using var browser = world.NewBrowser();
        using var opened = await browser.GetAsync(link, Stop);
        Assert.Equal(HttpStatusCode.OK, opened.StatusCode); // opening it, as mail programs do, uses nothing up
        using var joined = await JoinAsync(browser, link, Password);
        Assert.Equal("/account/factors", joined.Headers.Location?.OriginalString); // a password alone opens nothing else
        Assert.Contains("Tomasz Abiolek", await browser.GetStringAsync("/account/factors", Stop), StringComparison.Ordinal);

        using var again = world.NewBrowser();
        Assert.Equal(HttpStatusCode.NotFound, (await again.GetAsync(link, Stop)).StatusCode);
        using var later = await again.SignInAsync("tomasz@tallowfern.example", Password);
        Assert.Equal(HttpStatusCode.Redirect, later.StatusCode);
    }

    [Fact]
    public async Task Two_browsers_that_use_one_link_at_the_same_moment_make_one_account()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        var link = await InviteAsync(administrator, "priya@tallowfern.example", "Priya Lindqvist", Role.Provider);
        using var one = world.NewBrowser();
        using var other = world.NewBrowser();

        var answers = await Task.WhenAll(JoinAsync(one, link, Password), JoinAsync(other, link, Password));

        Assert.Single(answers, a => a.StatusCode is HttpStatusCode.Redirect);
        Assert.Equal(1, await world.DoAsync((AccountDb db) => db.Users.CountAsync(u => u.Email == "priya@tallowfern.example")));
    }

    [Fact]
    public async Task Link_ends_after_72_hours_and_by_another_link()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        var link = await InviteAsync(administrator, "bram@tallowfern.example", "Bram Nakamura", Role.Provider);
        var person = await PersonIdAsync("bram@tallowfern.example");
        using var browser = world.NewBrowser();

        using var second = await administrator.SendFormAsync($"/settings/people/{person}?handler=Link", new Dictionary<string, string>(), tokenFrom: $"/settings/people/{person}");
        var newer = LinkIn(await second.Content.ReadAsStringAsync(Stop));
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync(link, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync(newer, Stop)).StatusCode);

        world.Clock.Advance(TimeSpan.FromHours(73));
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync(newer, Stop)).StatusCode);
    }

    [Theory]
    [InlineData("too short", "it needs 15 or more")]
    [InlineData("Sefa Lautele 2026", "strangers try")]
    [InlineData("tallowfern1234567", "strangers try")]
    public async Task Password_that_breaks_a_rule_is_refused_with_the_reason_and_the_link_still_holds(string password, string says)
    {
        using var browser = world.NewBrowser();
        var newcomer = await world.Agency.AddAsync(new PersonRow { Email = $"{Guid.CreateVersion7()}@tallowfern.example", Name = "Sefa Lautele" });
        var link = new Uri($"/join/{await world.LinkAsync(newcomer.Id)}", UriKind.Relative);

        using var answer = await JoinAsync(browser, link, password);

        var page = await answer.Content.ReadAsStringAsync(Stop);
        Assert.Contains(says, page, StringComparison.Ordinal);
        Assert.DoesNotContain($"value=\"{password}\"", page, StringComparison.Ordinal); // a password is never shown again
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync(link, Stop)).StatusCode);
    }

    [Fact]
    public async Task New_password_by_a_link_ends_every_sign_in()
    {
        using var tablet = await world.NewBrowserAsync(Visitor.FamilyElsewhere);
        var key = await world.LinkAsync(world.PersonOf(Visitor.FamilyElsewhere));
        using var browser = world.NewBrowser();

        using var set = await browser.SendFormAsync($"/new-password/{key}", new Dictionary<string, string> { ["Input.Password"] = Password });

        Assert.Equal("/sign-in", set.Headers.Location?.OriginalString);
        Assert.Equal(HttpStatusCode.Redirect, (await tablet.GetAsync("/account", Stop)).StatusCode);
        using var old = await browser.SignInAsync(world.EmailOf(Visitor.FamilyElsewhere));
        Assert.Equal(HttpStatusCode.OK, old.StatusCode);
        using var right = await browser.SignInAsync(world.EmailOf(Visitor.FamilyElsewhere), Password);
        Assert.Equal(HttpStatusCode.Redirect, right.StatusCode);
    }

    [Fact]
    public async Task Administrator_makes_no_new_password_for_an_account_that_works_for_another_agency_too()
    {
        var person = await world.Agency.AddAsync(new PersonRow { Email = world.EmailOf(Visitor.OtherAgency), Name = "Contract therapist" });
        await world.Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = world.Agency.Day(8, 1) });
        var account = await AccountOfAsync(Visitor.OtherAgency);
        await world.DoAsync(async (AccountDb db) =>
        {
            db.Memberships.Add(new MembershipRow { AgencyId = world.Agency.Id, PersonId = person.Id, AccountId = account });
            return await db.SaveChangesAsync();
        });
        var administrator = (await world.Agency.CallerAsync(world.PersonOf(Visitor.Administrator)))!;

        var refused = await world.DoAsync((MakeLink make) => make.RunAsync(administrator, person.Id, Stop));

        Assert.Null(refused.Value);
        Assert.Contains("operator", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Administrator_makes_no_link_for_a_person_of_another_agency()
    {
        var administrator = (await world.Agency.CallerAsync(world.PersonOf(Visitor.Administrator)))!;

        var refused = await world.DoAsync((MakeLink make) => make.RunAsync(administrator, world.PersonOf(Visitor.OtherAgency), Stop));

        Assert.Equal([Problem.NotFound], refused.Problems);
    }

    [Fact]
    public async Task Role_is_given_and_ended_with_its_days_and_each_acts_on_the_next_request()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        using var director = await world.NewBrowserAsync(Visitor.Director);
        var page = $"/settings/people/{world.PersonOf(Visitor.Director)}";
        Assert.Equal(HttpStatusCode.NotFound, (await director.GetAsync("/settings/people", Stop)).StatusCode);

        using var given = await SendAsync(administrator, page, "GiveRole", new() { ["Given.Role"] = "Administrator" });
        Assert.Equal(HttpStatusCode.Redirect, given.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await director.GetAsync("/settings/people", Stop)).StatusCode);

        var role = (await RolesAsync(Visitor.Director)).Single(r => r.Role is Role.Administrator);
        using var stale = await SendAsync(administrator, page, "EndRole", new() { ["Ended.Role"] = $"{role.Id}", ["Ended.Version"] = $"{role.Version - 1}" });
        Assert.NotEqual(HttpStatusCode.Redirect, stale.StatusCode);
        using var ended = await SendAsync(administrator, page, "EndRole", new() { ["Ended.Role"] = $"{role.Id}", ["Ended.Version"] = $"{role.Version}" });
        Assert.Equal(HttpStatusCode.Redirect, ended.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await director.GetAsync("/settings/people", Stop)).StatusCode);
    }

    [Fact]
    public async Task Person_taken_off_the_list_is_out_and_comes_back_with_the_same_roles()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        using var provider = await world.NewBrowserAsync(Visitor.ProviderElsewhere);
        var page = $"/settings/people/{world.PersonOf(Visitor.ProviderElsewhere)}";

        using var ended = await SendAsync(administrator, page, "End", new() { ["version"] = $"{await VersionAsync(Visitor.ProviderElsewhere)}" });
        Assert.Equal(HttpStatusCode.Redirect, ended.StatusCode);
        Assert.Equal("/agency", (await provider.GetAsync("/caseload", Stop)).Headers.Location?.OriginalString);

        using var back = await SendAsync(administrator, page, "Restore", new() { ["version"] = $"{await VersionAsync(Visitor.ProviderElsewhere)}" });
        Assert.Equal(HttpStatusCode.Redirect, back.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await provider.GetAsync("/caseload", Stop)).StatusCode);
    }

    [Fact]
    public async Task Administrator_signs_a_lost_tablet_out()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        using var tablet = await world.NewBrowserAsync(Visitor.ProviderOnTeam);

        (await SendAsync(administrator, $"/settings/people/{world.PersonOf(Visitor.ProviderOnTeam)}", "SignOut", [])).Dispose();

        Assert.StartsWith("/sign-in", (await tablet.GetAsync("/account", Stop)).Headers.Location?.OriginalString, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_takes_themselves_off_the_list_or_ends_their_own_role_of_administrator()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        var page = $"/settings/people/{world.PersonOf(Visitor.Administrator)}";
        var role = Assert.Single(await RolesAsync(Visitor.Administrator));

        (await SendAsync(administrator, page, "End", new() { ["version"] = $"{await VersionAsync(Visitor.Administrator)}" })).Dispose();
        (await SendAsync(administrator, page, "EndRole", new() { ["Ended.Role"] = $"{role.Id}", ["Ended.Version"] = $"{role.Version}" })).Dispose();

        Assert.Equal(HttpStatusCode.OK, (await administrator.GetAsync(new Uri(page, UriKind.Relative), Stop)).StatusCode);
    }

    [Fact]
    public async Task Role_is_given_after_a_quarter_of_an_hour_only_with_ones_own_password()
    {
        using var administrator = await world.NewBrowserAsync(Visitor.Administrator);
        var page = $"/settings/people/{world.Bystander}";
        world.Clock.Advance(TimeSpan.FromMinutes(16));
        var role = new Dictionary<string, string> { ["Given.Role"] = "Provider" };

        using var without = await SendAsync(administrator, page, "GiveRole", role);
        Assert.Contains("Enter your own password", await without.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        using var wrong = await SendAsync(administrator, page, "GiveRole", new(role) { ["Password"] = "not the right password" });
        Assert.Equal(HttpStatusCode.OK, wrong.StatusCode);
        using var with = await SendAsync(administrator, page, "GiveRole", new(role) { ["Password"] = CreateDemonstrationAccounts.Passphrase });
        Assert.Equal(HttpStatusCode.Redirect, with.StatusCode);
    }

    [Fact]
    public async Task Changing_ones_password_asks_for_the_old_one_and_ends_the_other_sign_ins()
    {
        using var here = await world.NewBrowserAsync(Visitor.CaseManagerElsewhere);
        using var tablet = await world.NewBrowserAsync(Visitor.CaseManagerElsewhere);

        using var wrong = await ChangeAsync(here, "not the right password");
        Assert.Equal(HttpStatusCode.OK, wrong.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await tablet.GetAsync("/account", Stop)).StatusCode);
        using var changed = await ChangeAsync(here, CreateDemonstrationAccounts.Passphrase);
        Assert.Equal(HttpStatusCode.Redirect, changed.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await here.GetAsync("/account", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await tablet.GetAsync("/account", Stop)).StatusCode);
    }

    [Fact]
    public async Task Known_passphrase_is_given_in_Development_only()
    {
        await Assert.ThrowsAsync<InvalidOperationException>(() => world.DoAsync(
            (CreateDemonstrationAccounts make) => make.RunAsync(world.Agency.WholeAgency, isDevelopment: false, Stop)));
    }

    [GeneratedRegex("(/(?:join|new-password)/[A-Za-z0-9_-]{43})<")]
    private static partial Regex Link();

    private static Uri LinkIn(string page) => new(Link().Match(page).Groups[1].Value, UriKind.Relative);

    private static async Task<Uri> InviteAsync(HttpClient administrator, string email, string name, Role role)
    {
        using var answer = await administrator.SendFormAsync("/settings/people/new", new Dictionary<string, string>
        {
            ["operation"] = $"{Guid.CreateVersion7()}",
            ["Input.Email"] = email,
            ["Input.Name"] = name,
            ["Input.Role"] = $"{role}",
        });
        return LinkIn(await answer.Content.ReadAsStringAsync(Stop));
    }

    private static Task<HttpResponseMessage> JoinAsync(HttpClient browser, Uri link, string password) =>
        browser.SendFormAsync(link.OriginalString, new Dictionary<string, string> { ["Input.Password"] = password });

    private static Task<HttpResponseMessage> ChangeAsync(HttpClient browser, string current) =>
        browser.SendFormAsync("/account/password", new Dictionary<string, string> { ["Input.Current"] = current, ["Input.New"] = Password });

    private static Task<HttpResponseMessage> SendAsync(HttpClient browser, string page, string handler, Dictionary<string, string> fields) =>
        browser.SendFormAsync($"{page}?handler={handler}", new Dictionary<string, string>(fields) { ["operation"] = $"{Guid.CreateVersion7()}" }, tokenFrom: page);

    private Task<int> PersonIdAsync(string email) =>
        world.Agency.Portal.ReadAsync(world.Agency.WholeAgency, db => db.People.Where(p => p.Email == email).Select(p => p.Id).SingleAsync(Stop), Stop);

    private Task<int> VersionAsync(Visitor visitor) => world.Agency.Portal.ReadAsync(
        world.Agency.WholeAgency, db => db.People.Where(p => p.Id == world.PersonOf(visitor)).Select(p => p.Version).SingleAsync(Stop), Stop);

    private Task<List<PersonRoleRow>> RolesAsync(Visitor visitor) => world.Agency.Portal.ReadAsync(
        world.Agency.WholeAgency, db => db.PersonRoles.Where(r => r.PersonId == world.PersonOf(visitor)).ToListAsync(Stop), Stop);

    private Task<long> AccountOfAsync(Visitor visitor) =>
        world.DoAsync((AccountDb db) => db.Users.Where(u => u.Email == world.EmailOf(visitor)).Select(u => u.Id).SingleAsync(Stop));
}
