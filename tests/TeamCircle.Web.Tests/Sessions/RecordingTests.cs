using System.Net;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Web.Tests.Sessions;

/// <summary>What a provider does with a visit, in a browser without scripts. Each test has a day of its own.</summary>
public sealed class RecordingTests(RecordingPortal portal) : IClassFixture<RecordingPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Task<VisitRow> PlannedAsync(int day) => portal.Team.VisitAsync(day: new LocalDate(2026, 9, day));

    private static async Task<string> MainAsync(HttpClient browser, string path) =>
        FilledForm.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop)).QuerySelector("main")!.TextContent;

    private static async Task<string> MainAsync(HttpResponseMessage answer) =>
        FilledForm.Parse(await answer.Content.ReadAsStringAsync(Stop)).QuerySelector("main")!.TextContent;

    [Fact]
    public async Task Visit_that_went_as_planned_is_saved_as_the_form_stands()
    {
        var (visit, browser) = (await PlannedAsync(1), await portal.BrowserAsync("odalys"));
        var form = await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log");

        using var answer = await form.SendAsync();

        Assert.Equal($"/visits/{visit.Id}", answer.Headers.Location?.OriginalString);
        var page = await MainAsync(browser, $"/visits/{visit.Id}");
        Assert.Contains("45 minutes counted", page, StringComparison.Ordinal);
        Assert.Contains("times from the plan", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_saved_is_shown_again_as_it_was_typed()
    {
        var (visit, browser) = (await PlannedAsync(2), await portal.BrowserAsync("odalys"));
        var form = await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log");

        using var answer = await form.Type("Input.End", "half past").Type("Input.Note", "Long looks at the fan").SendAsync();
        var again = await FilledForm.OfAsync(browser, answer);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(("half past", "Long looks at the fan"), (again["Input.End"], again["Input.Note"]));
        Assert.Equal(form["operation"], again["operation"]);
        Assert.Equal("Input_End-hint Input_End-problem", again.Page.QuerySelector("#Input_End")!.GetAttribute("aria-describedby"));
        using var mended = await again.Type("Input.End", "9:30").Type("Input.Reason", "LearnerUnwell").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, mended.StatusCode);
    }

    [Fact]
    public async Task Who_comes_second_sees_what_was_saved_and_their_own_words_and_can_put_theirs_in_its_place()
    {
        var visit = await PlannedAsync(3);
        var (odalys, marisol) = (await portal.BrowserAsync("odalys"), await portal.BrowserAsync("marisol"));
        var (first, second) = (await FilledForm.OpenAsync(odalys, $"/visits/{visit.Id}/log"), await FilledForm.OpenAsync(marisol, $"/visits/{visit.Id}/log"));
        (await first.Type("Input.Note", "Fan and ribbons").SendAsync()).Dispose();

        using var overtaken = await second.Type("Input.End", "9:50").Type("Input.Note", "Stayed longer").SendAsync();

        Assert.Equal(HttpStatusCode.Conflict, overtaken.StatusCode);
        Assert.Contains("Fan and ribbons", await MainAsync(overtaken), StringComparison.Ordinal);
        var both = await FilledForm.OfAsync(marisol, overtaken);
        Assert.Equal(("9:50", "Stayed longer"), (both["Input.End"], both["Input.Note"]));
        using var without = await both.SendAsync();
        Assert.Contains("Say why it is corrected", await MainAsync(without), StringComparison.Ordinal);
        using var saved = await (await FilledForm.OfAsync(marisol, without)).Type("Input.Why", "Odalys told me on the telephone").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        var page = await MainAsync(odalys, $"/visits/{visit.Id}");
        Assert.Contains("50 minutes", page, StringComparison.Ordinal);
        Assert.Contains("Odalys told me on the telephone", page, StringComparison.Ordinal);
        Assert.Contains("Fan and ribbons", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Visit_is_corrected_with_a_reason_and_then_taken_back()
    {
        var (visit, browser) = (await PlannedAsync(4), await portal.BrowserAsync("odalys"));
        (await (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log")).SendAsync()).Dispose();

        var correct = await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/correct");
        Assert.Equal("9:45 am", correct["Input.End"]);
        using var corrected = await correct.Type("Input.Outcome", "NotOffered").Type("Input.Reason", "ProviderUnwell").Type("Input.Why", "Mixed up two days").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, corrected.StatusCode);
        Assert.Contains("Not offered: provider unwell", await MainAsync(browser, $"/visits/{visit.Id}"), StringComparison.Ordinal);

        using var taken = await (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}")).Type("Input.Why", "Was never on").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, taken.StatusCode);
        Assert.Contains("Nothing is logged", await MainAsync(browser, $"/visits/{visit.Id}"), StringComparison.Ordinal);
        Assert.Equal("9:00 am", (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log"))["Input.Start"]);
    }

    [Fact]
    public async Task Correction_of_what_was_taken_back_meanwhile_can_be_logged_anew_with_the_same_words()
    {
        var (visit, browser) = (await PlannedAsync(8), await portal.BrowserAsync("odalys"));
        (await (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/log")).SendAsync()).Dispose();
        var correct = (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}/correct")).Type("Input.Note", "Twelve minutes of looking").Type("Input.Why", "Forgot");
        (await (await FilledForm.OpenAsync(browser, $"/visits/{visit.Id}")).Type("Input.Why", "Wrong learner").SendAsync()).Dispose();

        using var overtaken = await correct.SendAsync();
        using var anew = await (await FilledForm.OfAsync(browser, overtaken)).SendAsync();

        Assert.Equal((HttpStatusCode.Conflict, HttpStatusCode.Redirect), (overtaken.StatusCode, anew.StatusCode));
        Assert.Contains("Twelve minutes of looking", await MainAsync(browser, $"/visits/{visit.Id}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Visit_that_nobody_had_scheduled_is_logged_with_what_a_person_should_know()
    {
        var browser = await portal.BrowserAsync("bram");
        var form = await FilledForm.OpenAsync(browser, "/visits/new/log");
        using var empty = await form.SendAsync();
        Assert.Contains("Choose the service", await MainAsync(empty), StringComparison.Ordinal);

        using var saved = await form.Type("Service", $"{portal.Team.Vision.Id}").Type("Input.OnDay", "2026-09-09").Type("Input.Start", "1:00 pm").Type("Input.End", "1:30")
            .Type("Input.PaysOn", "2026-09-01").SendAsync();

        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        var page = await MainAsync(browser, saved.Headers.Location!.OriginalString);
        Assert.Contains("1:00 to 1:30 pm", page, StringComparison.Ordinal);
        Assert.Contains("not assigned to the service", page, StringComparison.Ordinal);
        Assert.Contains("makes up for what was owed around 1 September 2026", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Group_is_logged_once_for_all_its_learners()
    {
        var (browser, jonahs) = (await portal.BrowserAsync("odalys"), await portal.Team.ServiceAsync(portal.Team.Jonah, Discipline.Vision, portal.Team.Odalys));
        using var saved = await (await FilledForm.OpenAsync(browser, "/visits/new/log")).Type("Service", $"{portal.Team.Vision.Id}").Tick("Also", $"{jonahs.Id}")
            .Type("Input.OnDay", "2026-09-14").Type("Input.Start", "10:00").Type("Input.End", "10:30").Type("Input.Format", "Group").SendAsync();

        Assert.Contains("for 2 learners", await MainAsync(browser, saved.Headers.Location!.OriginalString), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Scheduled_group_is_logged_from_one_of_its_visits()
    {
        var (browser, jonahs) = (await portal.BrowserAsync("odalys"), await portal.Team.ServiceAsync(portal.Team.Jonah, Discipline.Vision, portal.Team.Odalys));
        var first = await PlannedAsync(17);
        var second = await portal.Team.VisitAsync(jonahs, day: first.OnDay, with: v => v.GroupNo = first.GroupNo);

        using var saved = await (await FilledForm.OpenAsync(browser, $"/visits/{first.Id}/log")).SendAsync();

        Assert.Contains("for 2 learners", await MainAsync(browser, saved.Headers.Location!.OriginalString), StringComparison.Ordinal);
        Assert.Contains("times from the plan", await MainAsync(browser, $"/visits/{second.Id}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Co_treatment_waits_for_the_partner_who_confirms_it_on_their_own_service()
    {
        var odalys = await portal.Team.ServiceAsync(portal.Team.Wren, Discipline.OrientationAndMobility, portal.Team.Odalys, CoTreatment.Shared);
        await portal.Team.ServiceAsync(portal.Team.Wren, Discipline.AssistiveTechnology, portal.Team.Bram, CoTreatment.Shared);
        var (first, partner) = (await portal.BrowserAsync("odalys"), await portal.BrowserAsync("bram"));
        using var logged = await (await FilledForm.OpenAsync(first, "/visits/new/log")).Type("Service", $"{odalys.Id}").Type("Input.OnDay", "2026-09-10")
            .Type("Input.Start", "9:00").Type("Input.End", "10:00").Type("Input.PartnerId", $"{portal.Team.Bram}").Type("Input.SharedMinutes", "40").SendAsync();
        var visit = logged.Headers.Location!.OriginalString;
        Assert.Contains("not confirmed yet", await MainAsync(first, visit), StringComparison.Ordinal);
        var confirm = FilledForm.Parse(await partner.GetStringAsync(new Uri(visit, UriKind.Relative), Stop)).QuerySelector("a[href$='/confirm']")!.GetAttribute("href")!;

        using var confirmed = await (await FilledForm.OpenAsync(partner, confirm)).Type("Input.SharedMinutes", "20").SendAsync();

        Assert.Contains("20 minutes counted", await MainAsync(partner, confirmed.Headers.Location!.OriginalString), StringComparison.Ordinal);
        Assert.Contains("Bram Nakamura, confirmed", await MainAsync(first, visit), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await first.GetAsync(new Uri(confirm, UriKind.Relative), Stop)).StatusCode);
    }

    [Theory]
    [InlineData("priya", "")]
    [InlineData("ines", "")]
    [InlineData("priya", "/log")]
    [InlineData("ines", "/log")]
    [InlineData("bram", "/log")]
    [InlineData("bram", "/correct")]
    [InlineData("ines", "/correct")]
    public async Task Page_of_a_visit_that_is_none_of_theirs_is_as_if_it_did_not_exist(string person, string page)
    {
        var visit = await portal.Team.VisitAsync(day: new LocalDate(2026, 9, 11), start: new LocalTime(7, 0), minutes: 1, with: v => v.Live = false);

        using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri($"/visits/{visit.Id}{page}", UriKind.Relative), Stop);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }
}
