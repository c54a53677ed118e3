using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>The addresses that the practice sheet's shell asks, as it asks them. Today is Friday 2 October 2026.</summary>
public sealed class DeviceDoorTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static async Task<JsonElement> GetAsync(HttpClient browser, string address) =>
        await browser.GetFromJsonAsync<JsonElement>(new Uri(address, UriKind.Relative), Stop);

    private static async Task<(HttpStatusCode Status, JsonElement Json)> PostAsync(HttpClient browser, string address, object body, string? token = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = JsonContent.Create(body) };
        request.Headers.Add("RequestVerificationToken", token ?? (await GetAsync(browser, "/device/contact")).GetProperty("token").GetString());
        using var answer = await browser.SendAsync(request, Stop);
        return (answer.StatusCode, await answer.Content.ReadFromJsonAsync<JsonElement>(Stop));
    }

    private static async Task<string> EnrolAsync(HttpClient browser) =>
        (await PostAsync(browser, "/device/enrol", new { name = "Tablet in the car" })).Json.GetProperty("device").GetString()!;

    [Fact]
    public async Task Contact_says_who_asks_what_time_it_is_and_how_the_device_stands()
    {
        var browser = await portal.BrowserAsync("odalys");
        var none = await GetAsync(browser, "/device/contact");
        var device = await EnrolAsync(browser);

        var contact = await GetAsync(browser, $"/device/contact?device={device}");

        Assert.Equal("unknown", none.GetProperty("device").GetProperty("state").GetString());
        Assert.Equal(("active", 24), (contact.GetProperty("device").GetProperty("state").GetString(), contact.GetProperty("device").GetProperty("contactHours").GetInt32()));
        Assert.Equal((portal.Team.Odalys, "OF"), (contact.GetProperty("person").GetProperty("id").GetInt32(), contact.GetProperty("person").GetProperty("initials").GetString()));
        Assert.Equal("2026-10-02T16:00:00Z", contact.GetProperty("serverTime").GetString());
        Assert.Equal((1, 2), (contact.GetProperty("formats").GetProperty("least").GetInt32(), contact.GetProperty("formats").GetProperty("most").GetInt32()));
        Assert.Empty(contact.GetProperty("holds").EnumerateArray());
        var row = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Devices.SingleAsync(d => d.Id == Guid.Parse(device), Stop), Stop);
        Assert.Equal(Instant.FromUtc(2026, 10, 2, 16, 0), row.LastContact);
    }

    [Fact]
    public async Task Key_is_the_same_after_a_forgotten_pin_and_nobody_elses()
    {
        var (odalys, bram) = (await portal.BrowserAsync("odalys"), await portal.BrowserAsync("bram"));
        var (_, made) = await PostAsync(odalys, "/device/enrol", new { name = "Tablet" });
        var device = made.GetProperty("device").GetString();

        var again = await GetAsync(odalys, $"/device/key?device={device}");
        using var other = await bram.GetAsync(new Uri($"/device/key?device={device}", UriKind.Relative), Stop);

        Assert.Equal(32, again.GetProperty("key").GetBytesFromBase64().Length);
        Assert.Equal((made.GetProperty("key").GetString(), made.GetProperty("store").GetString()), (again.GetProperty("key").GetString(), again.GetProperty("store").GetString()));
        Assert.Equal(HttpStatusCode.NotFound, other.StatusCode);
        var kept = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, async db => (
            Device: await db.Devices.SingleAsync(d => d.Id == Guid.Parse(device!), Stop),
            Given: await db.Accesses.CountAsync(a => a.Page == "GET /device/key" && a.PersonId == portal.Team.Odalys, Stop)), Stop);
        Assert.DoesNotContain(made.GetProperty("key").GetString()!, kept.Device.Key, StringComparison.Ordinal);
        Assert.True(kept.Given >= 2);
    }

    [Fact]
    public async Task Bundle_holds_what_todays_and_tomorrows_visits_need_by_short_codes_and_is_on_record()
    {
        var practice = await TestPractice.CreateAsync(portal.Agency, portal.Team);
        await portal.Agency.AddAsync(new TeachPartRow { LearnerId = portal.Team.Wren, Part = Core.Learners.TeachPart.Cautions, Text = "Wren swallows slowly.\nNo flicker.", WrittenOn = new(2026, 9, 1), WrittenBy = portal.Team.Marisol });
        await portal.Agency.AddAsync(new TeachPartRow { LearnerId = portal.Team.Wren, Part = Core.Learners.TeachPart.SignalStop, Text = "Turns away.", WrittenOn = new(2026, 9, 1), WrittenBy = portal.Team.Marisol });
        var today = await portal.Team.VisitAsync(day: new LocalDate(2026, 10, 2), start: new(9, 5));
        await portal.Team.VisitAsync(day: new LocalDate(2026, 10, 3), start: new(14, 0));
        await portal.Team.VisitAsync(day: new LocalDate(2026, 10, 4), start: new(9, 0));
        await portal.Agency.AddAsync(new Data.Routines.VisitRoutineRow { LearnerId = portal.Team.Wren, VisitId = today.Id, RoutineId = practice.Version.RoutineId });
        var browser = await portal.BrowserAsync("odalys");
        var device = await EnrolAsync(browser);

        var text = await browser.GetStringAsync(new Uri($"/device/bundle?device={device}", UriKind.Relative), Stop);
        var bundle = JsonDocument.Parse(text).RootElement;

        Assert.DoesNotContain("Wren", text, StringComparison.Ordinal);
        Assert.Equal(("2026-10-02", "2026-10-03", "America/Los_Angeles"), (bundle.GetProperty("today").GetString(), bundle.GetProperty("tomorrow").GetString(), bundle.GetProperty("zone").GetString()));
        Assert.Equal("2026-10-09T16:00:00Z", bundle.GetProperty("expires").GetString());
        var learner = Assert.Single(bundle.GetProperty("learners").EnumerateArray());
        Assert.Equal(["WREN swallows slowly.", "No flicker."], learner.GetProperty("healthPlan").EnumerateArray().Select(l => l.GetString()));
        Assert.Equal("stop", learner.GetProperty("signals")[0].GetProperty("means").GetString());
        Assert.Equal(["09:05", "14:00"], bundle.GetProperty("visits").EnumerateArray().Select(v => v.GetProperty("start").GetString()));
        Assert.Equal(practice.Version.RoutineId, bundle.GetProperty("visits")[0].GetProperty("routines")[0].GetInt32());
        var routine = Assert.Single(bundle.GetProperty("routines").EnumerateArray(), r => r.GetProperty("id").GetInt32() == practice.Version.RoutineId);
        Assert.Equal((practice.Version.Id, 1), (routine.GetProperty("version").GetProperty("id").GetInt32(), routine.GetProperty("version").GetProperty("number").GetInt32()));
        Assert.Equal("WREN, time to water", routine.GetProperty("content").GetProperty("say").GetString());
        Assert.Equal("notNeeded", routine.GetProperty("review").GetProperty("state").GetString());
        Assert.False(routine.TryGetProperty("cautionsSeen", out _));
        Assert.Equal("percentIndependent", Assert.Single(bundle.GetProperty("goals").EnumerateArray()).GetProperty("measure").GetString());
        var access = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Accesses.SingleAsync(a => a.Page == "GET /device/bundle", Stop), Stop);
        Assert.Equal([portal.Team.Wren], access.LearnerIds);
    }

    [Fact]
    public async Task What_a_device_sends_is_answered_one_by_one()
    {
        var practice = await TestPractice.CreateAsync(portal.Agency, portal.Team, "Fan and ribbons");
        var browser = await portal.BrowserAsync("odalys");
        var device = await EnrolAsync(browser);
        object[] operations = [practice.Sent(practice.Record()), TestPractice.Sent("probe", new { goalId = 0 }), new { id = Guid.CreateVersion7(), format = 9, kind = "probe", made = "2026-09-15T16:16:00Z", body = new { } }];

        var (status, json) = await PostAsync(browser, "/device/operations", new { device, operations });

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(["stored", "setAside", "refused"], json.GetProperty("answers").EnumerateArray().Select(a => a.GetProperty("end").GetString()));
        Assert.Contains("removed", json.GetProperty("answers")[1].GetProperty("why").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_the_token_or_with_more_than_fifty_nothing_is_taken()
    {
        var browser = await portal.BrowserAsync("odalys");
        var device = await EnrolAsync(browser);

        Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync(browser, "/device/operations", new { device, operations = Array.Empty<object>() }, token: "none")).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync(browser, "/device/enrol", new { name = "Tablet" }, token: "none")).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync(browser, "/device/operations", new { device, operations = Enumerable.Repeat(1, 51) })).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await PostAsync(browser, "/device/operations", new { device = Guid.CreateVersion7(), operations = Array.Empty<object>() })).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync(browser, "/device/enrol", new { name = " " })).Status);
    }

    [Theory]
    [InlineData("/device/contact")]
    [InlineData("/device/key?device=0199a1b2-0000-7000-8000-000000000009")]
    [InlineData("/device/bundle?device=0199a1b2-0000-7000-8000-000000000009")]
    [InlineData("/device/picture/1")]
    public async Task Nobody_signed_in_is_401_and_a_family_404_and_both_are_json_that_nobody_keeps(string address)
    {
        using var stranger = portal.CreateClient(new() { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });
        foreach (var (browser, status) in new[] { (stranger, HttpStatusCode.Unauthorized), (await portal.BrowserAsync("ines"), HttpStatusCode.NotFound) })
        {
            using var answer = await browser.GetAsync(new Uri(address, UriKind.Relative), Stop);

            Assert.Equal((status, "application/json", "no-store"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType, answer.Headers.CacheControl?.ToString()));
            Assert.True((await answer.Content.ReadFromJsonAsync<JsonElement>(Stop)).TryGetProperty("error", out _));
        }
    }

    [Fact]
    public async Task Revoked_device_is_told_and_given_nothing_but_its_key()
    {
        var browser = await portal.BrowserAsync("bram");
        var device = await EnrolAsync(browser);
        await portal.Agency.Get<Data.Devices.RevokeDevice>().RunAsync(await portal.Team.CallerAsync(portal.Team.Bram), Guid.CreateVersion7(), new(Guid.Parse(device)), Stop);

        Assert.Equal("revoked", (await GetAsync(browser, $"/device/contact?device={device}")).GetProperty("device").GetProperty("state").GetString());
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync(new Uri($"/device/bundle?device={device}", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(32, (await GetAsync(browser, $"/device/key?device={device}")).GetProperty("key").GetBytesFromBase64().Length);
    }
}
