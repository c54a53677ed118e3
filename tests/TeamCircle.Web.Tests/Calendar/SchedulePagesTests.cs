using System.Net;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Calendar;

/// <summary>Scheduling, changing and taking back, in a browser without scripts. Each test has weeks of its own; the clock stands on Friday 2 October 2026.</summary>
public sealed class SchedulePagesTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Task<List<VisitRow>> VisitsAsync(LocalDate from, LocalDate to) => portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency,
        db => db.Visits.Where(v => v.AgencyId == portal.Agency.Id && v.OnDay >= from && v.OnDay <= to && v.Live).OrderBy(v => v.OnDay).ToListAsync());

    private async Task<FilledForm> NewAsync(LocalDate day, string start, int minutes = 45, string person = "odalys") =>
        (await FilledForm.OpenAsync(await portal.BrowserAsync(person), $"/visits/new?service={portal.Team.Vision.Id}"))
            .Type("Input.OnDay", day.ToString("uuuu-MM-dd", null)).Type("Input.Start", start).Type("Input.Minutes", $"{minutes}");

    private async Task<FilledForm> WeeklyAsync(LocalDate day, LocalDate until, string start) =>
        (await NewAsync(day, start)).Type("Input.Often", "Weeks").Type("Input.Until", until.ToString("uuuu-MM-dd", null));

    private async Task<string> PageAsync(string path, string person = "odalys") =>
        FilledForm.Parse(await (await portal.BrowserAsync(person)).GetStringAsync(new Uri(path, UriKind.Relative), Stop)).QuerySelector("main")!.TextContent;

    [Fact]
    public async Task Visit_is_scheduled_shown_moved_and_that_is_taken_back()
    {
        var saved = await (await NewAsync(new(2026, 10, 6), "9:00")).SaveAsync();

        Assert.Contains("Scheduled for Tuesday 6 October", saved, StringComparison.Ordinal);
        var visit = Assert.Single(await VisitsAsync(new(2026, 10, 5), new(2026, 10, 9)));
        var odalys = await portal.BrowserAsync("odalys");
        var moved = await (await FilledForm.OpenAsync(odalys, $"/visits/{visit.Id}/change")).Type("Input.OnDay", "2026-10-07").Type("Input.Start", "13:15").SaveAsync();
        Assert.Contains("Wednesday 7 October, 1:15 to 2:00 pm", moved, StringComparison.Ordinal);
        var back = await (await FilledForm.OpenAsync(odalys, $"/visits/{visit.Id}/undo")).SaveAsync();
        Assert.Contains("Tuesday 6 October, 9:00 to 9:45 am", back, StringComparison.Ordinal);
        Assert.Contains("Taken back", back, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Clash_is_said_with_whom_on_the_page_by_a_raw_request_and_to_fifty_at_once_and_one_visit_is_written()
    {
        var day = new LocalDate(2026, 10, 13);
        var form = await NewAsync(day, "9:00");
        var fields = new Dictionary<string, string>
        {
            ["Input.What"] = $"service:{portal.Team.Vision.Id}",
            ["Input.Often"] = "Once",
            ["Input.OnDay"] = "2026-10-13",
            ["Input.Start"] = "9:00",
            ["Input.Minutes"] = "45",
        };
        var browser = await portal.BrowserAsync("odalys");
        var token = await browser.TokenAsync("/visits/new");
        async Task<HttpStatusCode> RawAsync()
        {
            using var raw = new FormUrlEncodedContent(fields.Append(new("operation", $"{Guid.CreateVersion7()}")).Append(new("__RequestVerificationToken", token)));
            using var answer = await browser.PostAsync(new Uri("/visits/new", UriKind.Relative), raw, Stop);
            return answer.StatusCode;
        }

        var answers = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => RawAsync()));
        var again = await form.SendForAgainAsync();

        Assert.Single(answers, HttpStatusCode.Redirect);
        Assert.Equal(49, answers.Count(a => a == HttpStatusCode.OK));
        Assert.Contains("Odalys Ferreira is taken from 9:00 to 9:45 am.", again.Words, StringComparison.Ordinal);
        Assert.Single(await VisitsAsync(day, day));
    }

    [Fact]
    public async Task Series_says_what_it_comes_to_and_a_change_of_all_that_follow_lists_what_is_kept()
    {
        var saved = await (await WeeklyAsync(new(2026, 11, 3), new(2026, 11, 24), "10:00")).SaveAsync();
        Assert.Contains("4 visits are scheduled.", saved, StringComparison.Ordinal);
        Assert.Contains("Every week on Tuesday, 10:00 to 10:45 am, until 24 November 2026", saved, StringComparison.Ordinal);
        var visits = await VisitsAsync(new(2026, 11, 2), new(2026, 11, 27));
        var odalys = await portal.BrowserAsync("odalys");
        await (await FilledForm.OpenAsync(odalys, $"/visits/{visits[2].Id}/change")).Type("Input.Start", "14:00").SaveAsync();

        var next = await (await FilledForm.OpenAsync(odalys, $"/visits/{visits[1].Id}/change-following")).Type("Input.Start", "11:00").SaveAsync();

        Assert.Contains("2 visits are scheduled.", next, StringComparison.Ordinal);
        Assert.Contains("Kept as they are, because they were changed by themselves or logged: Tue 17 Nov.", next, StringComparison.Ordinal);
        Assert.Equal([10, 11, 14, 11], (await VisitsAsync(new(2026, 11, 2), new(2026, 11, 27))).Select(v => v.StartTime.Hour));
    }

    [Fact]
    public async Task Days_that_clash_are_left_out_by_a_tick_that_the_form_then_shows()
    {
        await portal.Team.VisitAsync(portal.Team.Vision, portal.Team.Bram, new(2026, 12, 8), new(9, 15), 30);
        var form = await WeeklyAsync(new(2026, 12, 1), new(2026, 12, 15), "9:00");

        var again = await form.SendForAgainAsync();
        var saved = await again.Type("Input.LeaveOut", "true").SaveAsync();

        Assert.Contains("Tuesday 8 December: The learner has a visit with Bram Nakamura from 9:15 to 9:45 am.", again.Words, StringComparison.Ordinal);
        Assert.Contains("2 visits are scheduled. Left out: Tue 8 Dec.", saved, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Clashes_while_typing_are_a_part_of_a_page_and_write_nothing()
    {
        await portal.Team.VisitAsync(day: new(2026, 10, 20), start: new(9, 0));
        var browser = await portal.BrowserAsync("odalys");
        var asked = $"/visits/new?handler=Clashes&Input.What=service%3A{portal.Team.Vision.Id}&Input.OnDay=2026-10-20&Input.Start=9%3A30&Input.Minutes=30";

        var single = await browser.GetStringAsync(new Uri(asked + "&Input.Often=Once", UriKind.Relative), Stop);
        var series = await browser.GetStringAsync(new Uri(asked + "&Input.Often=Weeks&Input.Until=2026-10-27", UriKind.Relative), Stop);
        var unready = await browser.GetStringAsync(new Uri("/visits/new?handler=Clashes&Input.Start=nine", UriKind.Relative), Stop);

        Assert.Contains("Odalys Ferreira is taken from 9:00 to 9:45 am.", single, StringComparison.Ordinal);
        Assert.DoesNotContain("<html", single, StringComparison.Ordinal);
        Assert.Contains("Every week on Tuesday, 9:30 to 10:00 am, until 27 October 2026: 1 visit.", series, StringComparison.Ordinal);
        Assert.Contains("Tuesday 20 October: Odalys Ferreira is taken", series, StringComparison.Ordinal);
        Assert.Equal("", unready.Trim());
        Assert.Single(await VisitsAsync(new(2026, 10, 20), new(2026, 10, 27)));
    }

    [Fact]
    public async Task Visit_is_handed_over_cancelled_and_its_series_ended_and_that_taken_back()
    {
        await (await WeeklyAsync(new(2027, 1, 12), new(2027, 2, 2), "9:00")).SaveAsync();
        var visits = await VisitsAsync(new(2027, 1, 11), new(2027, 2, 5));
        var odalys = await portal.BrowserAsync("odalys");

        var handed = await (await FilledForm.OpenAsync(odalys, $"/visits/{visits[0].Id}/hand-over")).Type("Input.To", $"{portal.Team.Bram}").SaveAsync();
        var cancelled = await (await FilledForm.OpenAsync(odalys, $"/visits/{visits[1].Id}/cancel")).Type("Input.Reason", nameof(Reason.FamilyAway)).SaveAsync();
        var ended = await (await FilledForm.OpenAsync(odalys, $"/visits/{visits[3].Id}/cancel", "main form[action*='handler=End']")).SaveAsync();

        Assert.Contains("Handed over to Bram Nakamura.", handed, StringComparison.Ordinal);
        Assert.Contains("Nothing is decided about its minutes.", cancelled, StringComparison.Ordinal);
        Assert.Contains("The series ends on 1 February 2027.", ended, StringComparison.Ordinal);
        Assert.Equal([VisitState.Planned, VisitState.CalledOff, VisitState.Planned], (await VisitsAsync(new(2027, 1, 11), new(2027, 2, 5))).Select(v => v.State));

        Assert.Contains("Take it back", ended, StringComparison.Ordinal);
        await (await FilledForm.OpenAsync(odalys, $"/visits/{visits[3].Id}/undo")).SaveAsync();
        Assert.Equal([VisitState.Planned, VisitState.CalledOff, VisitState.Planned, VisitState.Planned], (await VisitsAsync(new(2027, 1, 11), new(2027, 2, 5))).Select(v => v.State));
    }

    [Fact]
    public async Task Time_away_is_entered_seen_on_the_visit_and_ended()
    {
        await (await WeeklyAsync(new(2027, 3, 2), new(2027, 3, 23), "9:00")).SaveAsync();
        var marisol = await portal.BrowserAsync("marisol");
        var path = $"/learners/{portal.Team.Wren}/away";

        var entered = await (await FilledForm.OpenAsync(marisol, path, "main form:not([action*='End'])"))
            .Type("Input.Reason", "Hospital").Type("Input.FromDay", "2027-03-08").Type("Input.Note", "planned stay").SaveAsync();
        var visits = await VisitsAsync(new(2027, 3, 1), new(2027, 3, 26));
        var page = await PageAsync($"/visits/{visits[1].Id}");
        var ended = await (await FilledForm.OpenAsync(marisol, path, "main form[action*='End']")).Type("Ending.UntilDay", "2027-03-12").SaveAsync();

        Assert.Contains("3 visits are called off. Nothing is decided about the minutes.", entered, StringComparison.Ordinal);
        Assert.Contains("The learner is away: in hospital, from 8 March until further notice", page, StringComparison.Ordinal);
        Assert.Contains("2 visits are planned again.", ended, StringComparison.Ordinal);
        Assert.DoesNotContain("planned stay", await PageAsync($"/family/{portal.Team.Wren}", "ines"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Call_off_on_today_takes_one_tap_and_asks_for_the_make_up()
    {
        var visit = await portal.Team.VisitAsync(day: new(2026, 10, 2), start: new(15, 0));
        var browser = await portal.BrowserAsync("odalys");
        var late = (await FilledForm.OpenAsync(browser, "/", $"form[action='/visits/{visit.Id}/late']")).Tick("Input.Minutes", "15");
        Assert.Contains("Expected about 3:15 pm.", await late.SaveAsync(), StringComparison.Ordinal);
        Assert.Contains("comes for vision teaching; a little later, about 3:15 pm.", await PageAsync($"/family/{portal.Team.Wren}", "ines"), StringComparison.Ordinal);

        var asked = await (await FilledForm.OpenAsync(browser, "/", $"form[action='/visits/{visit.Id}/call-off']")).Tick("Input.Reason", nameof(Reason.NobodyHome)).SaveAsync();

        Assert.Contains("When can it be made up?", asked, StringComparison.Ordinal);
        Assert.Contains("Schedule a make-up visit", asked, StringComparison.Ordinal);
        Assert.Contains("Not offered: nobody home", await PageAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Log_form_of_a_visit_of_a_series_is_filled_from_the_plan_and_says_so()
    {
        await (await WeeklyAsync(new(2026, 10, 2), new(2026, 10, 2), "7:00")).SaveAsync();
        var visit = Assert.Single(await VisitsAsync(new(2026, 10, 2), new(2026, 10, 2)), v => v.SeriesId is not null);
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync("odalys"), $"/visits/{visit.Id}/log");

        Assert.Equal("7:00 am", form["Input.Start"]);
        Assert.Contains("times from the plan", await form.SaveAsync(), StringComparison.Ordinal);
    }
}
