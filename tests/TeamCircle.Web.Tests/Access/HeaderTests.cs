using System.Net;

namespace TeamCircle.Web.Tests.Access;

public sealed class HeaderTests(AccessWorld world) : IClassFixture<AccessWorld>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/sign-in", HttpStatusCode.OK, false)]
    [InlineData("/account", HttpStatusCode.Redirect, false)]
    [InlineData("/nowhere", HttpStatusCode.NotFound, false)]
    [InlineData("/sign-in", HttpStatusCode.InternalServerError, true)]
    [InlineData("/css/site.css", HttpStatusCode.OK, false)]
    [InlineData("/health/live", HttpStatusCode.OK, false)]
    [InlineData("/feed/nobodys.ics", HttpStatusCode.NotFound, false)]
    [InlineData("/device/contact", HttpStatusCode.Unauthorized, false)]
    [InlineData("/settings/import?handler=Template", HttpStatusCode.OK, false)]
    [InlineData("/settings", HttpStatusCode.OK, false)]
    public async Task Every_kind_of_answer_carries_the_safe_headers(string address, HttpStatusCode status, bool fails)
    {
        using var stranger = world.NewBrowser();
        if (fails)
            stranger.DefaultRequestHeaders.Add(HandlerWatch.Fail, "1");
        var browser = address.StartsWith("/settings", StringComparison.Ordinal) ? await world.BrowserAsync(Visitor.Administrator) : stranger;

        using var answer = await browser.GetAsync(new Uri(address, UriKind.Relative), Stop);

        Assert.Equal(status, answer.StatusCode);
        Assert.Equal(
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; worker-src 'self'; "
            + "manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'", One(answer, "Content-Security-Policy"));
        Assert.Equal("max-age=31536000; includeSubDomains", One(answer, "Strict-Transport-Security"));
        Assert.Equal("nosniff", One(answer, "X-Content-Type-Options"));
        Assert.Equal("no-referrer", One(answer, "Referrer-Policy"));
        Assert.Contains("geolocation=()", One(answer, "Permissions-Policy"), StringComparison.Ordinal);
        Assert.False(answer.Headers.Contains("Server"));
        if (answer.Content.Headers.ContentType is { MediaType: not "application/zip" } type) // ASVS 4.1.1
            Assert.Equal("utf-8", type.CharSet ?? (address.EndsWith(".css", StringComparison.Ordinal) || address == "/health/live" ? "utf-8" : "none"));
        var isStatic = address.EndsWith(".css", StringComparison.Ordinal);
        Assert.Equal(!isStatic, answer.Headers.CacheControl is { NoStore: true });
    }

    [Fact]
    public async Task Fault_is_told_without_its_words()
    {
        using var browser = world.NewBrowser();
        browser.DefaultRequestHeaders.Add(HandlerWatch.Fail, "1");

        using var answer = await browser.GetAsync("/sign-in", Stop);

        var page = await answer.Content.ReadAsStringAsync(Stop);
        Assert.Contains("Something went wrong on our side", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", page, StringComparison.Ordinal);
        Assert.DoesNotContain("A test asked", page, StringComparison.Ordinal);
    }

    /// <summary>ASVS 14.3.1. Cookies are taken back by name: the header would clear those of the whole domain.</summary>
    [Fact]
    public async Task Signing_out_clears_what_the_browser_kept_of_pages()
    {
        using var browser = await world.NewBrowserAsync(Visitor.ProviderOnTeam);

        using var answer = await browser.SendFormAsync("/sign-out", new Dictionary<string, string>());

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal("\"cache\"", One(answer, "Clear-Site-Data"));
    }

    private static string One(HttpResponseMessage answer, string header) => Assert.Single(answer.Headers.GetValues(header));
}
