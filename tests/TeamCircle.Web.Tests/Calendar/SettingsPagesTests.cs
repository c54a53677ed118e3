using System.Net;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Calendar;

/// <summary>What an agency sets, as its administrator does it in a browser.</summary>
public sealed class SettingsPagesTests(AccessWorld world) : IClassFixture<AccessWorld>
{
    public static TheoryData<string> Addresses =>
    [
        "/settings", "/settings/calendar", "/settings/calendar/terms", "/settings/calendar/closures/new", "/settings/calendar/holidays",
        "/settings/periods", "/settings/policy", "/settings/policy/change", "/settings/calendar/away",
    ];

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task Settings_open_to_the_administrator_and_look_absent_to_everybody_else(string address)
    {
        foreach (var visitor in new[] { Visitor.ProviderOnTeam, Visitor.CaseManager, Visitor.Family, Visitor.OtherAgency })
            Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(visitor, address));
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(Visitor.Administrator, address));
        Assert.Equal(
            address is "/settings" or "/settings/policy" or "/settings/policy/change" ? HttpStatusCode.OK : HttpStatusCode.NotFound,
            await StatusAsync(Visitor.Director, address));
    }

    [Theory]
    [MemberData(nameof(Addresses))]
    public async Task Every_field_has_its_label_and_the_page_one_heading(string address) =>
        await WellFormed.AssertAsync(await world.BrowserAsync(Visitor.Administrator), address);

    [Fact]
    public async Task A_closure_is_shown_with_what_it_changes_then_asked_why_then_saved_then_taken_back()
    {
        var browser = await world.BrowserAsync(Visitor.Administrator);
        var form = await FilledForm.OpenAsync(browser, "/settings/calendar/closures/new");
        Assert.DoesNotContain("Why the calendar changes", form.Words, StringComparison.Ordinal);
        form.Type("Input.Name", "Snow").Type("Input.Kind", "Unscheduled").Type("Input.FirstDay", "2026-12-03");

        var previewed = await form.SendForAgainAsync("Preview");
        Assert.Contains("What it would change", previewed.Words, StringComparison.Ordinal);
        Assert.Contains("It holds from 3 December 2026 on", previewed.Words, StringComparison.Ordinal);
        Assert.DoesNotContain("Snow", await browser.GetStringAsync(new Uri("/settings/calendar", UriKind.Relative)), StringComparison.Ordinal);

        var withoutReason = await previewed.SendForAgainAsync();
        Assert.Contains("Say why the calendar changes.", withoutReason.Words, StringComparison.Ordinal);
        Assert.Equal(("Snow", "2026-12-03"), (withoutReason["Input.Name"], withoutReason["Input.FirstDay"]));

        Assert.Contains("1 day entered", await withoutReason.Type("Input.Reason", "Roads closed").SaveAsync(), StringComparison.Ordinal);
        var takeBack = await FilledForm.OpenAsync(browser, await LinkAsync(browser, "/settings/calendar", "3 December 2026"));
        Assert.Contains("Say why it is taken back.", (await takeBack.SendForAgainAsync()).Words, StringComparison.Ordinal);
        var after = await takeBack.Type("Input.Reason", "The roads were cleared").SaveAsync();
        Assert.Contains("Taken back: Snow", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Days_after_which_a_long_time_away_asks_to_meet_are_set_within_reason_and_not_over_somebody_elses_change()
    {
        var browser = await world.BrowserAsync(Visitor.Administrator);
        var (form, late) = (await FilledForm.OpenAsync(browser, "/settings/calendar/away"), await FilledForm.OpenAsync(browser, "/settings/calendar/away"));
        Assert.Equal("10", form["Input.Days"]);

        var refused = await form.Type("Input.Days", "201").SendForAgainAsync();
        Assert.Contains("from 1 to 200", refused.Words, StringComparison.Ordinal);
        Assert.Contains("once it has lasted 6 school days", await refused.Type("Input.Days", "6").SaveAsync(), StringComparison.Ordinal);
        var overtaken = await late.Type("Input.Days", "8").SendForAgainAsync(expected: HttpStatusCode.Conflict);

        Assert.Contains("Now it is 6 school days.", overtaken.Words, StringComparison.Ordinal);
        Assert.Equal("8", overtaken["Input.Days"]);
    }

    [Fact]
    public async Task A_preview_names_the_learner_whose_status_would_change()
    {
        var form = await FilledForm.OpenAsync(await world.BrowserAsync(Visitor.Administrator), "/settings/calendar/closures/new");
        form.Type("Input.Name", "Flood").Type("Input.Kind", "Published").Type("Input.FirstDay", "2026-08-17").Type("Input.LastDay", "2026-10-16");

        var previewed = await form.SendForAgainAsync("Preview");

        Assert.Contains("Wren Belmares", previewed.Words, StringComparison.Ordinal);
        Assert.Contains("OT-1", previewed.Words, StringComparison.Ordinal);
        Assert.Contains("nothing due", previewed.Words, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Holidays_are_ticked_into_the_calendar()
    {
        var browser = await world.BrowserAsync(Visitor.Administrator);
        var form = await FilledForm.OpenAsync(browser, "/settings/calendar/holidays");
        Assert.Contains("Veterans Day, Wednesday 11 November 2026", form.Words, StringComparison.Ordinal);
        Assert.Contains("Tick at least one day.", (await form.SendForAgainAsync("Preview")).Words, StringComparison.Ordinal);

        var previewed = await form.Tick("Input.Days", "2026-11-11").Tick("Input.Days", "2027-01-01").SendForAgainAsync("Preview");
        var after = await previewed.Type("Input.Reason", "Calendar of the school board").SaveAsync();

        Assert.Contains("2 holidays entered", after, StringComparison.Ordinal);
        Assert.Contains("New Year's Day", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Periods_that_overlap_are_refused_beside_the_field_and_nothing_typed_is_lost()
    {
        var browser = await world.BrowserAsync(Visitor.Administrator);
        var form = await FilledForm.OpenAsync(browser, "/settings/periods");
        var empty = Enumerable.Range(0, 50).First(i => string.IsNullOrEmpty(form[$"Input.Rows[{i}].Name"])); // other tests add periods too
        var row = $"Input.Rows[{empty}]";
        form.Type($"{row}.Name", "Period 2").Type($"{row}.FirstDay", "2026-10-16").Type($"{row}.LastDay", "2026-12-18");

        var refused = await form.SendForAgainAsync();
        Assert.Contains("already covers some of these days", refused.Page.GetElementById($"Input_Rows_{empty}__FirstDay-problem")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("Period 2", refused[$"{row}.Name"]);

        var after = await refused.Type($"{row}.FirstDay", "2026-10-20").SaveAsync();
        Assert.Contains("with 1 school day", after, StringComparison.Ordinal); // Monday 19 October lies in no period now
    }

    [Fact]
    public async Task The_second_of_two_who_change_the_terms_sees_both_versions()
    {
        var browser = await world.BrowserAsync(Visitor.Administrator);
        var (first, second) = (await FilledForm.OpenAsync(browser, "/settings/calendar/terms"), await FilledForm.OpenAsync(browser, "/settings/calendar/terms"));
        void TypeInto(FilledForm form, string name, string from, string to)
        {
            var row = form["Input.Rows[0].Name"] is { Length: > 0 } ? 1 : 0;
            form.Type($"Input.Rows[{row}].Name", name).Type($"Input.Rows[{row}].FirstDay", from).Type($"Input.Rows[{row}].LastDay", to);
        }
        TypeInto(first, "June", "2027-06-07", "2027-06-18");
        TypeInto(second, "July", "2027-07-05", "2027-07-16");

        await first.SaveAsync();
        var overtaken = await second.SendForAgainAsync(expected: HttpStatusCode.Conflict);

        Assert.Contains("Somebody else saved a change while you were typing", overtaken.Words, StringComparison.Ordinal);
        Assert.Contains("June: 7 June to 18 June 2027", overtaken.Words, StringComparison.Ordinal);
        Assert.Equal("July", overtaken["Input.Rows[1].Name"]);
    }

    [Fact]
    public async Task A_policy_is_changed_with_its_words_a_reason_and_who_agreed()
    {
        var browser = await world.BrowserAsync(Visitor.Director);
        var period = await FilledForm.OpenAsync(await world.BrowserAsync(Visitor.Administrator), "/settings/periods");
        var row = Enumerable.Range(0, 9).First(i => period[$"Input.Rows[{i}].Name"] is not { Length: > 0 });
        period.Type($"Input.Rows[{row}].Name", "Spring").Type($"Input.Rows[{row}].FirstDay", "2027-01-11").Type($"Input.Rows[{row}].LastDay", "2027-03-12");
        await period.SaveAsync();

        var form = await FilledForm.OpenAsync(browser, "/settings/policy/change");
        var previewed = await form.Type("Input.FromDay", "2027-01-11").Type("Input.ShortWindow", "Prorated").SendForAgainAsync("Preview");
        var refused = await previewed.SendForAgainAsync();
        Assert.Contains("Say why the policy changes.", refused.Words, StringComparison.Ordinal);
        var after = await refused.Type("Input.Words", "Weeks with holidays count by their days.").Type("Input.WrittenIn", "Handbook, 4.2")
            .Type("Input.Reason", "Board decision").Type("Input.SecondPerson", $"{world.PersonOf(Visitor.Administrator)}").SaveAsync();

        Assert.Contains("From 11 January 2027", after, StringComparison.Ordinal);
        Assert.Contains("agreed by Administrator", after, StringComparison.Ordinal);
        Assert.Contains("Weeks with holidays count by their days.", after, StringComparison.Ordinal);
    }

    private async Task<HttpStatusCode> StatusAsync(Visitor visitor, string address)
    {
        using var answer = await (await world.BrowserAsync(visitor)).GetAsync(new Uri(address, UriKind.Relative));
        return answer.StatusCode;
    }

    /// <summary>The address of the link in the row that says these words.</summary>
    private static async Task<string> LinkAsync(HttpClient browser, string page, string words)
    {
        var document = FilledForm.Parse(await browser.GetStringAsync(new Uri(page, UriKind.Relative)));
        return document.QuerySelectorAll(".rows li").Single(li => li.TextContent.Contains(words, StringComparison.Ordinal)).QuerySelector("a")!.GetAttribute("href")!;
    }
}
