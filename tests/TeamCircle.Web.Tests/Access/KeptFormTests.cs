using System.Net;
using Microsoft.AspNetCore.Mvc.Testing;
using NodaTime;
using TeamCircle.Data.Account;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Web.Tests.Access;

/// <summary>A sign-in that ends while somebody types loses nothing.</summary>
public sealed class KeptFormTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private HttpClient NewBrowser() => portal.CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });

    /// <summary>The sign-in page that a form gets which was opened by Odalys and sent after her sign-in had ended.</summary>
    private async Task<(VisitRow Visit, FilledForm SignIn)> SendLateAsync(HttpClient browser, int day)
    {
        var visit = await portal.Team.VisitAsync(day: new LocalDate(2026, 9, day));
        (await browser.SignInAsync("odalys@tallowfern.example")).Dispose();
        var form = (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log")).Type("Input.Note", "She looked for <ten> seconds & smiled");
        (await browser.SendFormAsync("/sign-out", new Dictionary<string, string>())).Dispose();
        using var late = await form.SendAsync();
        Assert.Equal(HttpStatusCode.Unauthorized, late.StatusCode);
        return (visit, await FilledForm.OfAsync(browser, late));
    }

    private static Task<HttpResponseMessage> SignInAsync(FilledForm form, string email, string password = CreateDemonstrationAccounts.Passphrase) =>
        form.Type("Input.Email", email).Type("Input.Password", password).SendAsync();

    [Fact]
    public async Task Form_sent_after_the_sign_in_had_ended_is_saved_after_signing_in_again()
    {
        using var browser = NewBrowser();
        var (visit, late) = await SendLateAsync(browser, 1);

        using var wrong = await SignInAsync(late, "odalys@tallowfern.example", "not the password at all");
        using var again = await SignInAsync(await FilledForm.OfAsync(browser, wrong), "odalys@tallowfern.example");
        var kept = await FilledForm.OfAsync(browser, again);
        using var saved = await kept.SendAsync();

        Assert.Equal($"/visits/{visit.Id}", saved.Headers.Location?.OriginalString);
        var page = FilledForm.Parse(await browser.GetStringAsync(new Uri($"/visits/{visit.Id}", UriKind.Relative), Stop));
        Assert.Contains("She looked for <ten> seconds & smiled", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Somebody_else_who_signs_in_on_the_device_cannot_send_it_and_does_not_see_it()
    {
        using var browser = NewBrowser();
        var (visit, late) = await SendLateAsync(browser, 2);

        using var other = await SignInAsync(late, "marisol@tallowfern.example");
        var kept = await FilledForm.OfAsync(browser, other);
        using var refused = await kept.SendAsync();

        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.DoesNotContain("seconds", kept.Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Nothing is logged", await browser.GetStringAsync(new Uri($"/visits/{visit.Id}", UriKind.Relative), Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Kept_form_that_is_none_of_ours_is_left_out()
    {
        using var browser = NewBrowser();
        using var signedIn = await browser.SendFormAsync("/sign-in", new Dictionary<string, string>
        {
            ["Input.Email"] = "odalys@tallowfern.example",
            ["Input.Password"] = CreateDemonstrationAccounts.Passphrase,
            ["Kept"] = "CfDJ8 forged",
        });

        Assert.Equal(HttpStatusCode.Redirect, signedIn.StatusCode);
    }
}
