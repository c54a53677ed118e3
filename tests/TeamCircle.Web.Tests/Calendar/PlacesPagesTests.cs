namespace TeamCircle.Web.Tests.Calendar;

/// <summary>Places, ways and hours on their pages, in a browser without scripts.</summary>
public sealed class PlacesPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    [Fact]
    public async Task Places_are_added_and_the_minutes_between_them_kept()
    {
        var browser = await portal.BrowserAsync(portal.Team.Dele);
        async Task<FilledForm> NewAsync() => await FilledForm.OpenAsync(browser, "/settings/places", "main section:first-of-type > div > details form");
        await (await NewAsync()).Type("Input.Code", "N1").Type("Input.Name", "North hill").SaveAsync();
        await (await NewAsync()).Type("Input.Code", "R4").Type("Input.Name", "River bend").SaveAsync();

        var again = await (await NewAsync()).Type("Input.Code", "R4").Type("Input.Name", "Another").SendForAgainAsync();
        var saved = await (await FilledForm.OpenAsync(browser, "/settings/places", "main form[action*='Travel']")).Type("Travel.Ways[0].Minutes", "20").SaveAsync();

        Assert.Contains("Another place already has that code.", again.Words, StringComparison.Ordinal);
        Assert.Contains("Saved.", saved, StringComparison.Ordinal);
        Assert.Equal("20", (await FilledForm.OpenAsync(browser, "/settings/places", "main form[action*='Travel']"))["Travel.Ways[0].Minutes"]);
    }

    [Fact]
    public async Task Hours_that_cannot_be_read_are_named_with_their_weekday_and_others_are_kept()
    {
        var path = $"/settings/people/{portal.Team.Bram.Id}/hours";
        var form = (await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Dele), path)).Type("Input.Week.Days[0]", "8 to 12, 1 pm to 4 pm").Type("Input.Week.Days[1]", "mornings");

        var again = await form.SendForAgainAsync();
        var saved = await again.Type("Input.Week.Days[1]", "").Type("Input.MostMinutes", "240").SaveAsync();

        Assert.Contains("Tuesday: write hours like 8:00 to 12:00, 13:00 to 16:30.", again.Words, StringComparison.Ordinal);
        Assert.Contains("The hours are saved.", saved, StringComparison.Ordinal);
        var kept = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Dele), path);
        Assert.Equal(("8:00 to 12:00, 13:00 to 16:00", "240"), (kept["Input.Week.Days[0]"], kept["Input.MostMinutes"]));
    }

    [Fact]
    public async Task Case_manager_says_when_a_learner_can_be_visited()
    {
        var path = $"/learners/{portal.Team.Wren.Id}/hours";
        var browser = await portal.BrowserAsync(portal.Team.Marisol);

        var saved = await (await FilledForm.OpenAsync(browser, path)).Type("Input.Week.Days[2]", "9:00 to 11:30").SaveAsync();

        Assert.Contains("Hours and places are saved.", saved, StringComparison.Ordinal);
        Assert.Equal("9:00 to 11:30", (await FilledForm.OpenAsync(browser, path))["Input.Week.Days[2]"]);
    }
}
