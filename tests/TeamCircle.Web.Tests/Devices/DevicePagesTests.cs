using System.Net;
using System.Text.Json;
using AngleSharp.Html.Dom;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;
using TeamCircle.Testing;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>The pages about devices, about what they sent, and about a practice. Each test has its own device and routine; today is Friday 2 October 2026.</summary>
public sealed class DevicePagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task<(TestPractice Practice, Guid Device)> DeviceAsync(string name, int? person = null)
    {
        var practice = await TestPractice.CreateAsync(portal.Agency, portal.Team, $"Routine of the {name}");
        return (practice, await practice.DeviceAsync(portal.Team, person ?? portal.Team.Odalys, name));
    }

    private async Task<OperationAnswer> SendAsync(Guid device, JsonElement operation, int? person = null) => Assert.Single(
        (await portal.Agency.Get<SyncOperations>().RunAsync(await portal.Team.CallerAsync(person ?? portal.Team.Odalys), device, [operation], Stop))!);

    private static async Task<IHtmlDocument> PageAsync(HttpClient browser, string path) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop));

    private Task<SetAsideRow> AsideAsync(Guid operation) =>
        portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.SetAsides.SingleAsync(s => s.OperationId == operation, Stop), Stop);

    private static JsonElement Probe(int goal, Guid id, double value, string conditions) =>
        TestPractice.Sent("probe", new { goalId = goal, onDay = "2026-09-16", value, opportunities = 8, conditions }, id);

    [Fact]
    public async Task Own_device_is_listed_and_revoked_and_nobody_elses()
    {
        var (_, device) = await DeviceAsync("Tablet with the blue case");
        var (odalys, bram) = (await portal.BrowserAsync("odalys"), await portal.BrowserAsync("bram"));
        Assert.DoesNotContain("blue case", (await PageAsync(bram, "/account/devices")).Body!.TextContent, StringComparison.Ordinal);
        var foreign = await FilledForm.OpenAsync(odalys, "/account/devices", $"main form:has([value='{device}'])");
        using var notFound = await bram.SendFormAsync("/account/devices", new Dictionary<string, string> { ["device"] = $"{device}", ["operation"] = $"{Guid.CreateVersion7()}" }, tokenFrom: "/sign-out");

        using var revoked = await foreign.SendAsync();

        Assert.Equal(HttpStatusCode.NotFound, notFound.StatusCode);
        Assert.Equal("/account/devices", revoked.Headers.Location?.OriginalString);
        Assert.Contains("Revoked Fri 2 Oct, 9:00 am by Odalys Ferreira", (await PageAsync(odalys, "/account/devices")).Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Administrator_revokes_anybodys_device()
    {
        var (_, device) = await DeviceAsync("Tablet that was left on a train", portal.Team.Bram);
        var dele = await portal.Team.PersonAsync("Dele Okwarre", Core.People.Role.Administrator, default);
        await portal.AddAccountsAsync();
        var browser = await portal.BrowserAsync("dele");
        var form = await FilledForm.OpenAsync(browser, $"/settings/people/{portal.Team.Bram}/devices", $"main form:has([value='{device}'])");

        using var answer = await form.SendAsync();

        Assert.Equal($"/settings/people/{portal.Team.Bram}/devices", answer.Headers.Location?.OriginalString);
        var row = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Devices.SingleAsync(d => d.Id == device, Stop), Stop);
        Assert.Equal(dele, row.RevokedBy);
    }

    [Fact]
    public async Task What_was_set_aside_is_shown_in_full_to_its_person_and_the_case_manager_and_counted_on_today()
    {
        var ((_, device), id) = (await DeviceAsync("Tablet A"), Guid.CreateVersion7());
        var answer = await SendAsync(device, Probe(portal.Team.Gaze.Id, id, 180, "lamp behind her, slow morning"));
        Assert.Equal(OperationEnd.SetAside, answer.End);

        foreach (var person in new[] { "odalys", "marisol" })
        {
            var browser = await portal.BrowserAsync(person);
            var item = (await PageAsync(browser, "/set-aside")).QuerySelector($"#item-{(await AsideAsync(id)).Id}")!.TextContent;
            Assert.Contains("lamp behind her, slow morning", item, StringComparison.Ordinal);
            Assert.Contains("A percentage lies between 0 and 100.", item, StringComparison.Ordinal);
            Assert.Contains("Wren Belmares", item, StringComparison.Ordinal);
            Assert.Contains("that a device sent", (await PageAsync(browser, "/")).QuerySelector("a[href='/set-aside']")!.TextContent, StringComparison.Ordinal);
        }
        Assert.Null((await PageAsync(await portal.BrowserAsync("bram"), "/set-aside")).QuerySelector($"#item-{(await AsideAsync(id)).Id}"));
    }

    [Fact]
    public async Task It_is_entered_once_what_stood_in_its_way_is_gone_and_for_the_person_who_did_it()
    {
        var ((practice, device), id) = (await DeviceAsync("Tablet B", portal.Team.Bram), Guid.CreateVersion7());
        await portal.Agency.ChangeAsync<RelationRow>(r => r.PersonId == portal.Team.Bram && r.LearnerId == portal.Team.Wren, r => r.ToDay = new LocalDate(2026, 10, 1));
        var record = practice.Record();
        Assert.Equal(OperationEnd.SetAside, (await SendAsync(device, practice.Sent(record, id), portal.Team.Bram)).End);
        await portal.Agency.ChangeAsync<RelationRow>(r => r.PersonId == portal.Team.Bram && r.LearnerId == portal.Team.Wren, r => r.ToDay = null);
        var row = await AsideAsync(id);
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync("marisol"), "/set-aside", $"#item-{row.Id} form[action*='Enter']");

        using var answer = await form.SendAsync("Enter");
        using var again = await form.SendAsync("Enter");

        Assert.Equal("/set-aside", answer.Headers.Location?.OriginalString);
        Assert.Equal("/set-aside", again.Headers.Location?.OriginalString);
        var (kept, closed) = (await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Practices.SingleAsync(p => p.Id == record.Id, Stop), Stop), await AsideAsync(id));
        Assert.Equal((portal.Team.Bram, portal.Team.Marisol), (kept.ProviderId, kept.RecordedBy));
        Assert.Equal((portal.Team.Marisol, null), (closed.ClosedBy, closed.ClosedWhy));
        Assert.NotNull(closed.EnteredBy);
    }

    [Fact]
    public async Task What_still_cannot_be_entered_says_why_and_waits_on_until_it_is_closed_with_a_reason()
    {
        var ((_, device), id) = (await DeviceAsync("Tablet C"), Guid.CreateVersion7());
        await SendAsync(device, Probe(portal.Team.Gaze.Id, id, 160, "counted twice"));
        var (row, browser) = (await AsideAsync(id), await portal.BrowserAsync("odalys"));
        var selector = $"#item-{row.Id} form[action*='Close']";
        using var entered = await (await FilledForm.OpenAsync(browser, "/set-aside", $"#item-{row.Id} form[action*='Enter']")).SendAsync("Enter");
        Assert.Contains("A percentage lies between 0 and 100.", FilledForm.Parse(await entered.Content.ReadAsStringAsync(Stop)).QuerySelector(".problems")!.TextContent, StringComparison.Ordinal);

        using var silent = await (await FilledForm.OpenAsync(browser, "/set-aside", selector)).SendAsync("Close");
        Assert.Equal(HttpStatusCode.OK, silent.StatusCode);
        using var said = await (await FilledForm.OpenAsync(browser, "/set-aside", selector)).Type("Closed.Why", "Typed into the wrong field.").SendAsync("Close");

        Assert.Equal("/set-aside", said.Headers.Location?.OriginalString);
        Assert.Equal("Typed into the wrong field.", (await AsideAsync(id)).ClosedWhy);
        Assert.Null((await PageAsync(browser, "/set-aside")).QuerySelector($"#item-{row.Id}"));
    }

    [Fact]
    public async Task Practice_that_came_under_a_hold_is_entered_with_a_word_and_the_hold_stands_on_it()
    {
        var ((practice, device), id) = (await DeviceAsync("Tablet under a hold"), Guid.CreateVersion7());
        await portal.Agency.Get<SetHold>().RunAsync(await portal.Team.CallerAsync(portal.Team.Bram), Guid.CreateVersion7(),
            new() { Learner = portal.Team.Wren, Routine = practice.Version.RoutineId, Reason = "New chair on Thursday.", ToldAs = Core.Routines.HoldWord.Own }, Stop);
        var record = practice.Record() with { StartedAt = Instant.FromUtc(2026, 10, 2, 16, 0), EndedAt = Instant.FromUtc(2026, 10, 2, 16, 4) };
        Assert.Equal(OperationEnd.SetAside, (await SendAsync(device, practice.Sent(record, id))).End);
        var (row, marisol) = (await AsideAsync(id), await portal.BrowserAsync("marisol"));
        var enter = await FilledForm.OpenAsync(marisol, "/set-aside", $"#item-{row.Id} form[action*='Enter']");
        Assert.Empty(enter.Page.QuerySelectorAll("[name='Entered.UnderHold']"));

        using var refused = await enter.SendAsync("Enter");
        var knowingly = await FilledForm.OfAsync(marisol, refused, $"#item-{row.Id} form:has(textarea[name='Entered.UnderHold'])");
        Assert.Contains("There was a hold on it: New chair on Thursday.", knowingly.Words, StringComparison.Ordinal);
        using var entered = await knowingly.Type("Entered.UnderHold", "It took place before anybody knew.").SendAsync("Enter");

        Assert.Equal("/set-aside", entered.Headers.Location?.OriginalString);
        var words = (await PageAsync(marisol, $"/practices/{record.Id}")).QuerySelector(".hold")!.TextContent;
        Assert.Contains("New chair on Thursday.", words, StringComparison.Ordinal);
        Assert.Contains("Marisol Quenby entered it knowing so: It took place before anybody knew.", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Practice_shows_its_figures_and_one_touch_adds_them_to_the_goal_once()
    {
        var (practice, device) = await DeviceAsync("Tablet D");
        var record = practice.Record() with { StartedAt = Instant.FromUtc(2026, 9, 21, 16, 10), EndedAt = Instant.FromUtc(2026, 9, 21, 16, 15) };
        await SendAsync(device, practice.Sent(record, skewMs: 20 * 60_000));
        var browser = await portal.BrowserAsync("odalys");
        var page = await PageAsync(browser, $"/practices/{record.Id}");
        var words = string.Join(' ', page.QuerySelector("main")!.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

        foreach (var said in new[]
        {
            "Without help, 1 of 2", "Average prompts needed 0.5", "10 s; 1 without a response before the first prompt or the end", "Done as written 1 of 1 steps", "Wait kept 2 of 2 trials",
            "10 s, done at 22 s", "none within 12.5 s", "its clock was 20 minutes ahead", "For the goal: 50 percent without help, 1 of 2.", "No probe: there were prompts.",
        })
            Assert.Contains(said, words, StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("button[value=Probe]"));

        using var added = await (await FilledForm.OpenAsync(browser, $"/practices/{record.Id}")).Type("kind", "Teaching").SendAsync();

        Assert.Equal($"/practices/{record.Id}", added.Headers.Location?.OriginalString);
        var probe = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Probes.SingleAsync(p => p.PracticeId == record.Id, Stop), Stop);
        Assert.Equal((50m, 2, ProbeKind.Teaching, new LocalDate(2026, 9, 21)), (probe.Value, probe.Opportunities!.Value, probe.Kind, probe.OnDay));
        Assert.Contains("Added as teaching data", (await PageAsync(browser, $"/practices/{record.Id}")).Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains(record.Id.ToString(), (await PageAsync(browser, $"/learners/{portal.Team.Wren}/practices")).QuerySelector("main ol")!.InnerHtml, StringComparison.Ordinal);
    }

    [Fact]
    public async Task First_practice_of_the_day_without_prompts_may_be_a_probe_and_the_second_may_not()
    {
        var (practice, device) = await DeviceAsync("Tablet E");
        var first = practice.Record() with { StartedAt = Instant.FromUtc(2026, 9, 22, 16, 10), EndedAt = Instant.FromUtc(2026, 9, 22, 16, 15) };
        first = first with { Trials = [first.Trials[0]] };
        var second = practice.Record() with { StartedAt = Instant.FromUtc(2026, 9, 22, 17, 10), EndedAt = Instant.FromUtc(2026, 9, 22, 17, 15) };
        second = second with { Trials = [second.Trials[0]] };
        foreach (var record in new[] { first, second })
            Assert.Equal(OperationEnd.Stored, (await SendAsync(device, practice.Sent(record))).End);
        var browser = await portal.BrowserAsync("odalys");

        Assert.NotNull((await PageAsync(browser, $"/practices/{first.Id}")).QuerySelector("button[value=Probe]"));
        var later = await PageAsync(browser, $"/practices/{second.Id}");

        Assert.Null(later.QuerySelector("button[value=Probe]"));
        Assert.Contains("not the first chance of the day", later.Body!.TextContent, StringComparison.Ordinal);
        using var forced = await (await FilledForm.OpenAsync(browser, $"/practices/{second.Id}")).Tick("kind", "Probe").SendAsync();
        Assert.Equal(HttpStatusCode.NotFound, forced.StatusCode);
    }
}
