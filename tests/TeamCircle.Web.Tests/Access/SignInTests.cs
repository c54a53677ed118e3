using System.Net;
using TeamCircle.Core.People;

namespace TeamCircle.Web.Tests.Access;

public sealed class SignInTests(AccessWorld world) : IClassFixture<AccessWorld>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Right_password_leads_to_the_page_that_was_wanted()
    {
        using var browser = world.NewBrowser();

        using var answer = await browser.SignInAsync(world.EmailOf(Visitor.CaseManager), then: "/reason");

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal("/reason", answer.Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Cookie_saved_before_signing_out_opens_nothing_afterwards()
    {
        using var browser = await world.NewBrowserAsync(Visitor.CaseManager);
        using var thief = world.NewBrowser();
        using var before = await browser.GetAsync("/sign-out", Stop);
        var cookie = before.RequestMessage!.Headers.GetValues("Cookie").Single();
        thief.DefaultRequestHeaders.Add("Cookie", cookie);
        Assert.Equal(HttpStatusCode.OK, (await thief.GetAsync("/sign-out", Stop)).StatusCode);

        (await browser.SendFormAsync("/sign-out", new Dictionary<string, string>())).Dispose();

        using var replay = await thief.GetAsync("/sign-out", Stop);
        Assert.Equal(HttpStatusCode.Redirect, replay.StatusCode);
        Assert.StartsWith("/sign-in", replay.Headers.Location?.PathAndQuery, StringComparison.Ordinal);
    }
}
