using System.Net;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Data.Account;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Access;

/// <summary>A portal with low limits, reached from an address that the test chooses by a header.</summary>
public sealed class LimitedPortal(PgAssembly server) : PortalApp(server)
{
    public const string From = "X-Test-From";

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.UseSetting("Limits:AddressEachMinute", "10").UseSetting("Limits:SignInsEachMinute", "3").UseSetting("Limits:FeedsEachMinute", "4").UseSetting("Proxy", "10.0.0.5");
        builder.ConfigureTestServices(services => services.AddSingleton<IStartupFilter>(new SocketAddress(http => http.Request.Headers[From].FirstOrDefault() ?? "192.0.2.1")));
    }
}

public sealed class LimitTests(LimitedPortal portal) : IClassFixture<LimitedPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Too_many_requests_from_one_address_are_told_to_wait_and_other_addresses_are_not()
    {
        using var eager = From("192.0.2.10");
        for (var i = 0; i < 10; i++)
            Assert.Equal(HttpStatusCode.OK, (await eager.GetAsync("/sign-in", Stop)).StatusCode);

        using var refused = await eager.GetAsync("/sign-in", Stop);
        Assert.Equal(HttpStatusCode.TooManyRequests, refused.StatusCode);
        Assert.Contains("Wait a minute", await refused.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await eager.GetAsync("/css/site.css", Stop)).StatusCode);
        using var other = From("192.0.2.11");
        Assert.Equal(HttpStatusCode.OK, (await other.GetAsync("/sign-in", Stop)).StatusCode);
    }

    [Fact]
    public async Task Secret_addresses_of_calendars_are_tried_a_few_times_a_minute()
    {
        using var eager = From("192.0.2.20");
        for (var i = 0; i < 4; i++)
            Assert.Equal(HttpStatusCode.NotFound, (await eager.GetAsync($"/feed/guess{i}.ics", Stop)).StatusCode);

        Assert.Equal(HttpStatusCode.TooManyRequests, (await eager.GetAsync("/feed/guess.ics", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await eager.GetAsync("/sign-in", Stop)).StatusCode);
    }

    [Fact]
    public async Task Passwords_are_tried_a_few_times_a_minute_also_by_somebody_who_changes_within_their_own_network()
    {
        var statuses = new List<HttpStatusCode>();
        for (var i = 0; i < 4; i++)
        {
            using var browser = From($"2001:db8:1:2::{i + 1}");
            using var answer = await browser.SignInAsync($"person{i}@tallowfern.example", "not the right password");
            statuses.Add(answer.StatusCode);
        }

        Assert.Equal([HttpStatusCode.OK, HttpStatusCode.OK, HttpStatusCode.OK, HttpStatusCode.TooManyRequests], statuses);
    }

    /// <summary>ASVS 5.2.1.</summary>
    [Fact]
    public async Task What_is_too_large_is_refused_before_it_is_read()
    {
        using var browser = From("192.0.2.40");
        using var large = new ByteArrayContent(new byte[30_000_001]);

        using var answer = await browser.PostAsync("/sign-in", large, Stop);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("This is too large", await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("192.0.2.30", "192.0.2.30")] // a stranger who says who they are is not believed
    [InlineData("10.0.0.5", "203.0.113.9")] // the named proxy is
    public async Task Forwarded_address_is_believed_from_the_named_proxy_only(string socket, string recorded)
    {
        using var browser = From(socket);
        browser.DefaultRequestHeaders.Add("X-Forwarded-For", "203.0.113.9");
        browser.DefaultRequestHeaders.Add("X-Forwarded-Proto", "https");

        (await browser.SignInAsync($"{socket}@tallowfern.example", "not the right password")).Dispose();

        await using var scope = portal.Services.CreateAsyncScope();
        var events = await scope.ServiceProvider.GetRequiredService<AccountDb>().Events.OrderByDescending(e => e.Id).Select(e => e.Address).FirstAsync(Stop);
        Assert.Equal(recorded, events);
    }

    private HttpClient From(string address)
    {
        var browser = portal.CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });
        browser.DefaultRequestHeaders.Add(LimitedPortal.From, address);
        return browser;
    }
}
