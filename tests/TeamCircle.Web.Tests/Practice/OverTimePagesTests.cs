using AngleSharp.Html.Dom;
using NodaTime;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Practice;
using TeamCircle.Testing;

namespace TeamCircle.Web.Tests.Practice;

/// <summary>What was written down at practices, over time. Today is Friday 2 October 2026.</summary>
public sealed class OverTimePagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private async Task RecordAsync(TestPractice practice, int who, LocalDate day, Conditions conditions, string? observes = null)
    {
        var start = Instant.FromUtc(day.Year, day.Month, day.Day, 16, 0);
        var record = practice.Record() with { StartedAt = start, EndedAt = start + Duration.FromMinutes(10), Conditions = conditions, UnaskedClosures = [4_000, 9_000], ObservesCode = observes };
        Assert.Empty((await portal.Agency.Get<RecordPractice>().RunAsync(await portal.Team.CallerAsync(who), Guid.CreateVersion7(), new(record), Stop)).Problems);
    }

    private static string[] Cells(IHtmlDocument page, string part) => [.. page.QuerySelectorAll($"{part} tbody tr:first-child > *").Select(c => c.TextContent.Trim())];

    [Fact]
    public async Task Team_sees_position_and_switch_day_by_day_over_all_adults_and_a_second_observer_counts_nothing()
    {
        var practice = await TestPractice.CreateAsync(portal.Agency, portal.Team, "Routine over time");
        var chair = new Conditions { Position = "In her chair", TimeIn = "09:00", TimeOut = "09:20", Tolerance = "well", Skin = "clear", Tilt = "15 degrees", Switch = "Round switch", Hits = 3, Misses = 1 };
        await RecordAsync(practice, portal.Team.Odalys, new(2026, 9, 28), chair);
        await RecordAsync(practice, portal.Team.Odalys, new(2026, 9, 29), chair with { TimeOut = "09:10" });
        await RecordAsync(practice, portal.Team.Bram, new(2026, 9, 29), chair with { TimeIn = "09:05", TimeOut = "09:30", Skin = "red at the hip" });
        await RecordAsync(practice, portal.Team.Marisol, new(2026, 9, 29), chair with { TimeOut = "11:00", Hits = 50 }, observes: "2PF2DB");
        var browser = await portal.BrowserAsync("odalys");

        var page = FilledForm.Parse(await browser.GetStringAsync(new Uri($"/learners/{portal.Team.Wren}/over-time", UriKind.Relative), Stop));

        Assert.Equal(["Tue 29 Sep", "In her chair", "30", "15 degrees", "well", "clear; red at the hip"], Cells(page, "#position"));
        Assert.Equal(["Tue 29 Sep", "Round switch", "6", "2", "6 of 8", "4"], Cells(page, "#switch"));
        Assert.Equal(2, page.QuerySelectorAll("#position .day-bars .full").Length);
        Assert.Equal(2, page.QuerySelectorAll("#switch .day-bars .above").Length);
        Assert.Contains($"/learners/{portal.Team.Wren}/over-time", await browser.GetStringAsync(new Uri($"/learners/{portal.Team.Wren}", UriKind.Relative), Stop), StringComparison.Ordinal);
        var month = FilledForm.Parse(await browser.GetStringAsync(new Uri($"/learners/{portal.Team.Wren}/over-time?days=30", UriKind.Relative), Stop));
        Assert.Contains("since 3 September 2026", month.QuerySelector(".head")!.TextContent, StringComparison.Ordinal);
        foreach (var stranger in new[] { "priya", "ines" })
        {
            using var answer = await (await portal.BrowserAsync(stranger)).GetAsync(new Uri($"/learners/{portal.Team.Wren}/over-time", UriKind.Relative), Stop);
            Assert.Equal(System.Net.HttpStatusCode.NotFound, answer.StatusCode);
        }
    }
}
