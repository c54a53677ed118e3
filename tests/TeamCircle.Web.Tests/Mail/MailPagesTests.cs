using System.Net;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Mail;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Mail;

/// <summary>The small team, with an administrator and a director.</summary>
public sealed class MailPortal(PgAssembly server) : AgencyPortal(server)
{
    public TestTeam Team { get; private set; } = null!;

    public Task<HttpClient> BrowserAsync(string person) => SignedInAsync($"{person}@tallowfern.example");

    protected override async Task FillAsync()
    {
        Team = await TestTeam.CreateAsync(Agency);
        await Team.PersonAsync("Hana Verity", Role.Administrator, Relation.Team);
        await Team.PersonAsync("Dele Ashworth", Role.Director, Relation.Team);
    }
}

/// <summary>Mail on the running portal. Now is Friday 2 October 2026, 9:00 in Los Angeles, and each test moves it on.</summary>
public sealed class MailPagesTests(MailPortal portal) : IClassFixture<MailPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Task<List<OutboxRow>> OutboxAsync() =>
        portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Outbox.Where(o => o.AgencyId == portal.Agency.Id).ToListAsync(Stop), Stop);

    private string[] Mails() => Directory.Exists(portal.MailFolder) ? [.. Directory.GetFiles(portal.MailFolder, "*.eml").Select(File.ReadAllText)] : [];

    [Fact]
    public async Task Digests_go_out_once_by_two_portals_name_nobody_and_the_jobs_page_says_so()
    {
        await using var second = portal.WithWebHostBuilder(_ => { });
        second.CreateClient().Dispose();
        // The jobs run beside the test: the clock is moved until the digests have gone, which no waiting brings about.
        var turns = 0;
        while (!(await OutboxAsync()).Exists(o => o.Slot is not null && o.EndedAt is not null) || (await OutboxAsync()).Exists(o => o.EndedAt is null))
        {
            Assert.True(turns++ < 2000, "The digests never went.");
            portal.Agency.Clock.Advance(TimeSpan.FromSeconds(5));
        }

        var mails = await ReadMime.AllAsync(Mails());
        Assert.Contains(mails, m => m.Subject == "Visits and minutes");
        Assert.Equal(mails.Length, mails.Select(m => m.MessageId).Distinct().Count());
        Assert.Equal(mails.Length, mails.Select(m => (m.To[0].Address, m.Subject, m.Header("date").First()[..16])).Distinct().Count());
        // With a space before it a short name can't come about in the random tail of a link.
        foreach (var canary in new[] { " Wren", " Jonah", "Belmares", "Tarrow", " gaze" })
            Assert.DoesNotContain(mails, m => $"{m.Text} {m.Html} {m.Subject} {string.Join(' ', m.Headers.Select(h => h.Value))}".Contains(canary, StringComparison.OrdinalIgnoreCase));
        var page = await (await portal.BrowserAsync("hana")).GetStringAsync(new Uri("/settings/jobs", UriKind.Relative), Stop);
        Assert.Contains("queued", FilledForm.Parse(page).QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Administrator_reads_that_no_server_is_set_and_a_test_lies_in_the_folder()
    {
        var hana = await portal.BrowserAsync("hana");
        var form = await FilledForm.OpenAsync(hana, "/settings/mail", "main form[action*=Test]");
        Assert.Contains("No mail server is set", form.Words, StringComparison.Ordinal);

        using var answer = await form.SendAsync();

        Assert.Contains("Kept in the folder", await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        Assert.Contains(await ReadMime.AllAsync(Mails()), m => m.Subject == "A test of the portal's mail" && m.To[0].Address == "hana@tallowfern.example");
    }

    [Fact]
    public async Task Person_chooses_kinds_days_hours_and_zone_and_one_request_without_a_sign_in_stops_a_kind()
    {
        var priya = await portal.BrowserAsync("priya");
        var form = await FilledForm.OpenAsync(priya, "/account/mail");
        Assert.Equal(("true", "07:00"), (form["Input.VisitsAndMinutes"], form["Input.At"]?[..5]));
        using (var saved = await form.Type("Input.At", "15:30").Type("Input.TimeZone", "America/Denver").SendAsync())
            Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        var choice = await ChoiceAsync();
        Assert.Equal((new LocalTime(15, 30), "America/Denver", 0b0011111, true), (choice.At, choice.TimeZone, choice.Days, choice.VisitsAndMinutes));

        const string Tail = "priyas-own-tail-of-an-address-to-stop-a-kind";
        await portal.Agency.AddAsync(new OutboxRow
        {
            Id = Guid.CreateVersion7(),
            PersonId = portal.Team.Priya,
            Kind = MailKind.VisitsAndMinutes,
            State = MailState.Sent,
            EndedAt = Instant.FromUnixTimeSeconds(0),
            TokenHash = System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(Tail)),
        });
        using var stranger = portal.CreateClient(new() { BaseAddress = new("https://portal.tallowfern.example"), AllowAutoRedirect = false, HandleCookies = false });
        Assert.Contains("Stop these mails?", await stranger.GetStringAsync(new Uri($"/unsubscribe/{Tail}", UriKind.Relative), Stop), StringComparison.Ordinal);
        Assert.True((await ChoiceAsync()).VisitsAndMinutes);
        using var asked = new FormUrlEncodedContent([new("List-Unsubscribe", "One-Click")]);
        using var stopped = await stranger.PostAsync(new Uri($"/unsubscribe/{Tail}", UriKind.Relative), asked, Stop);
        Assert.Equal(HttpStatusCode.OK, stopped.StatusCode);
        Assert.Equal((false, true), ((await ChoiceAsync()).VisitsAndMinutes, (await ChoiceAsync()).WaitingForYourDecision));
    }

    private Task<MailChoiceRow> ChoiceAsync() => portal.Agency.Portal.ReadAsync(
        portal.Agency.WholeAgency, db => db.MailChoices.SingleAsync(c => c.AgencyId == portal.Agency.Id && c.PersonId == portal.Team.Priya, Stop), Stop);

    [Fact]
    public async Task Quiet_leaves_the_learner_out_of_today_the_feed_and_devices_and_marks_them_in_lists()
    {
        var bram = await portal.BrowserAsync("bram");
        var caller = await portal.Team.CallerAsync(portal.Team.Bram);
        var service = await portal.Team.ServiceAsync(portal.Team.Jonah, Core.Learners.Discipline.OccupationalTherapy, portal.Team.Bram);
        var visit = await portal.Agency.Get<ScheduleVisit>().RunAsync(
            caller, Guid.CreateVersion7(), new() { Learner = portal.Team.Jonah, ServiceId = service.Id, OnDay = caller.Today, Start = new(23, 0), Minutes = 30, Confirmed = true }, Stop);
        Assert.Empty(visit.Problems);
        var device = (await portal.Agency.Get<EnrolDevice>().RunAsync(caller, new("Tablet"), Stop)).Value!.Device;
        var feed = await FeedAsync(bram);
        Assert.Contains("Jonah", await MainAsync(bram, "/"), StringComparison.Ordinal);
        Assert.Contains("BEGIN:VEVENT", await bram.GetStringAsync(feed, Stop), StringComparison.Ordinal);
        Assert.Equal([portal.Team.Jonah], await LearnersAsync(bram, $"/device/bundle?device={device}"));

        var dele = await portal.BrowserAsync("dele");
        var form = await FilledForm.OpenAsync(dele, $"/learners/{portal.Team.Jonah}/quiet");
        using (var set = await form.Type("Input.Reason", "He died on Tuesday.").Type("Input.NamedBy", "His grandmother, by telephone").Type("Input.Confirmed", "true").SendAsync())
            Assert.Equal(HttpStatusCode.Redirect, set.StatusCode);

        Assert.DoesNotContain("Jonah", await MainAsync(bram, "/"), StringComparison.Ordinal);
        Assert.Contains("Quiet: nothing is sent about them", await MainAsync(bram, "/caseload"), StringComparison.Ordinal);
        Assert.DoesNotContain("BEGIN:VEVENT", await bram.GetStringAsync(feed, Stop), StringComparison.Ordinal);
        Assert.Empty(await LearnersAsync(bram, $"/device/bundle?device={device}"));
        using var contact = JsonDocument.Parse(await bram.GetStringAsync(new Uri($"/device/contact?device={device}", UriKind.Relative), Stop));
        Assert.Equal([portal.Team.Jonah], contact.RootElement.GetProperty("quiet").EnumerateArray().Select(q => q.GetInt32()));
    }

    private async Task<Uri> FeedAsync(HttpClient browser)
    {
        using var made = await (await FilledForm.OpenAsync(browser, "/account/feed")).SendAsync();
        return new Uri(new Uri(FilledForm.Parse(await made.Content.ReadAsStringAsync(Stop)).QuerySelector("main code")!.TextContent).PathAndQuery, UriKind.Relative);
    }

    private static async Task<string> MainAsync(HttpClient browser, string path) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop)).QuerySelector("main")!.TextContent;

    private static async Task<int[]> LearnersAsync(HttpClient browser, string path)
    {
        using var json = JsonDocument.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop));
        return [.. json.RootElement.GetProperty("learners").EnumerateArray().Select(l => l.GetProperty("id").GetInt32())];
    }
}
