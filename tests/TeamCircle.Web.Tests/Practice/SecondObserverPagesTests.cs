using AngleSharp.Html.Dom;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Practice;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Practice;

/// <summary>What a second observer scored, over HTTP. Each test has a routine of its own; today is Friday 2 October 2026.</summary>
public sealed class SecondObserverPagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task RecordAsync(int who, PracticeRecord record) =>
        Assert.Empty((await portal.Agency.Get<RecordPractice>().RunAsync(await portal.Team.CallerAsync(who), Guid.CreateVersion7(), new(record), Stop)).Problems);

    private async Task<PracticeRecord> PractisedAsync(string routine)
    {
        var record = (await TestPractice.CreateAsync(portal.Agency, portal.Team, routine)).Record();
        await RecordAsync(portal.Team.Odalys, record);
        return record;
    }

    private static async Task<IHtmlDocument> PageAsync(HttpClient browser, string path) => FilledForm.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop));

    private static string Words(IHtmlDocument page, string part) => string.Join(' ', page.QuerySelector(part)!.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    [Fact]
    public async Task Colleague_scores_a_practice_from_a_recording_without_seeing_the_first_score()
    {
        var first = await PractisedAsync("Routine on film");
        var bram = await portal.BrowserAsync("bram");
        var form = await FilledForm.OpenAsync(bram, $"/practices/{first.Id}/observe");
        Assert.DoesNotContain("without help, 1 of 2", form.Words, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("She presses with her elbow, trial 2", form.Words, StringComparison.Ordinal);

        var again = await form.Type("Seen[0]", "0").SendForAgainAsync();
        Assert.Contains("Name who gave consent to the recording.", again.Words, StringComparison.Ordinal);
        Assert.Equal("0", again["Seen[0]"]);
        var saved = await again.Type("Input.ConsentBy", "Ines Belmares").Type("Input.ConsentOn", "2026-09-14").Type("Seen[1]", "no").SaveAsync();

        Assert.Contains("from a recording, consent by Ines Belmares on 14 September 2026", saved, StringComparison.Ordinal);
        var page = await PageAsync(await portal.BrowserAsync("odalys"), $"/practices/{first.Id}");
        Assert.Contains("Bram Nakamura, from a recording, consent by Ines Belmares on 14 September 2026: scored alike in 1 of 2 trials that both scored.", Words(page, "#observers"), StringComparison.Ordinal);
        Assert.Equal(["response without help", "response without help", "yes", "response after 1 prompt", "said no", "no"], page.QuerySelectorAll("#observers td").Select(c => c.TextContent.Trim()));
        Assert.Null(page.QuerySelector("#observers a.act")); // who practised it is no second observer
        using var own = await (await portal.BrowserAsync("odalys")).GetAsync(new Uri($"/practices/{first.Id}/observe", UriKind.Relative), Stop);
        Assert.Equal($"/practices/{first.Id}", own.Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task Score_that_waits_for_the_first_observers_device_says_so_and_offers_nothing_to_add()
    {
        var practice = await TestPractice.CreateAsync(portal.Agency, portal.Team, "Routine that waits");
        var second = practice.Record() with { ObservesCode = "2PF2DB" };
        await RecordAsync(portal.Team.Bram, second);

        var page = await PageAsync(await portal.BrowserAsync("bram"), $"/practices/{second.Id}");

        Assert.Contains("The practice with this code has not arrived yet", Words(page, "#observers"), StringComparison.Ordinal);
        Assert.Contains("second observer, there at the same time", Words(page, ".head"), StringComparison.Ordinal);
        Assert.Empty(page.QuerySelectorAll("main button[name=kind]"));
        var list = await PageAsync(await portal.BrowserAsync("bram"), $"/learners/{portal.Team.Wren}/practices?routine={practice.Version.RoutineId}");
        Assert.Equal("second observer", list.QuerySelector("main ol .then")!.TextContent.Trim());
    }

    [Fact]
    public async Task Visit_is_logged_from_what_was_practised_and_says_what_filled_the_hour()
    {
        var practice = await TestPractice.CreateAsync(portal.Agency, portal.Team, "Routine of the hour");
        var visit = await portal.Team.VisitAsync(day: new(2026, 9, 29));
        var start = Instant.FromUtc(2026, 9, 29, 16, 10);
        await RecordAsync(portal.Team.Odalys, practice.Record(visit.Id) with { StartedAt = start, EndedAt = start + Duration.FromMinutes(31), Filled = [new(FilledKind.WarmUp, 5), new(FilledKind.Rest, 4)] });
        await RecordAsync(portal.Team.Bram, practice.Record(visit.Id) with { StartedAt = start, EndedAt = start + Duration.FromHours(2), ObservesCode = "2PF2DC" }); // says nothing about the visit
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync("odalys"), $"/visits/{visit.Id}/log");

        Assert.Equal(("9:00 am", "9:41 am", $"{practice.Version.RoutineId}", "5", "4"), (form["Input.Start"], form["Input.End"], form["Input.Routines"], form["Input.Filled[0].Minutes"], form["Input.Filled[4].Minutes"]));
        var saved = await form.Type("Input.Filled[1].Minutes", "10").Type("Input.Filled[4].Minutes", "").SaveAsync();

        Assert.Contains("warm-up 5 minutes and transfers 10 minutes", saved, StringComparison.Ordinal);
        var row = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Sessions.SingleAsync(s => s.VisitId == visit.Id, Stop), Stop);
        Assert.Equal([new Filled(FilledKind.WarmUp, 5), new Filled(FilledKind.Transfers, 10)], row.Filled);
        Assert.Equal((true, 41), (row.Observed, row.Credited));
        var correct = await FilledForm.OpenAsync(await portal.BrowserAsync("odalys"), $"/visits/{visit.Id}/correct");
        Assert.Equal("10", correct["Input.Filled[1].Minutes"]);
        Assert.Contains("lasts from 0 to 720 minutes", (await correct.Type("Input.Filled[1].Minutes", "-10").Type("Input.Why", "Typed wrong").SendForAgainAsync()).Words, StringComparison.Ordinal);
    }
}
