using System.Net;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Startup;

public sealed class AnswerTests(PortalApp portal) : IClassFixture<PortalApp>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/health/live")]
    [InlineData("/health/ready")]
    public async Task Health_answers_one_word(string address)
    {
        using var http = portal.CreateClient();

        Assert.Equal("Healthy", await http.GetStringAsync(address, Stop));
    }

    [Fact]
    public async Task Unknown_page_is_a_plain_404_with_safe_headers()
    {
        using var http = portal.CreateClient();

        using var answer = await http.GetAsync("/nowhere", Stop);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("There is no such page", await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Fact]
    public async Task Log_names_the_page_and_nothing_that_was_typed_into_the_address()
    {
        using var http = portal.CreateClient();

        await http.GetAsync("/canary-in-path?q=canary-in-query", Stop);
        await http.GetAsync("/problem/404?q=canary-in-query", Stop);

        await http.GetAsync("/sign-in?then=/canary-in-then", Stop);
        await http.GetAsync("/sign-in/%0A2026-01-01 00:00:00.000 +00:00 [INF] forged%1B[31m", Stop); // ASVS 16.4.1

        var log = await portal.ReadLogAsync("GET /sign-in answered");
        Assert.Contains("GET (no page) answered 404", log, StringComparison.Ordinal);
        Assert.DoesNotContain("canary", log, StringComparison.Ordinal);
        Assert.DoesNotContain("forged", log, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Search_for_words_that_must_not_come_out_finds_one_that_was_put_there()
    {
        var folder = ScratchFolder.Make();
        try
        {
            await File.WriteAllTextAsync(Path.Combine(folder, "portal-1.log"), "GET /learners/7 answered 200 for Wren BELMARES", Stop);
            await File.WriteAllTextAsync(Path.Combine(folder, "portal-2.log"), "GET /learners/{id:int} answered 200", Stop);

            Assert.Equal(["portal-1.log: Belmares"], Canaries.InFiles(folder, "*.log", [.. Canaries.Records, .. Canaries.Secrets]));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [InlineData("identity")]
    [InlineData("gzip")]
    public async Task Library_of_the_charts_is_served_by_us(string encoding)
    {
        using var http = portal.CreateClient();
        using var asked = new HttpRequestMessage(HttpMethod.Get, "/lib/chart.js/chart.umd.min.js");
        asked.Headers.AcceptEncoding.ParseAdd(encoding);

        using var answer = await http.SendAsync(asked, Stop);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("text/javascript", answer.Content.Headers.ContentType?.MediaType);
        Assert.NotEmpty(await answer.Content.ReadAsByteArrayAsync(Stop));
    }
}
