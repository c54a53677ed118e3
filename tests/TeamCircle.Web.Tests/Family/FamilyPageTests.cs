using System.Net;

namespace TeamCircle.Web.Tests.Family;

/// <summary>The family's page: facts in plain words, their own child only, nothing of what staff write for each other.</summary>
public sealed class FamilyPageTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private string Wren => $"/family/{portal.Team.Wren.Id}";

    [Fact]
    public async Task Family_reads_who_comes_what_was_given_and_whom_to_ask()
    {
        var page = await portal.PageAsync(portal.Team.Ines, Wren);

        Assert.Contains("9:30 am Odalys Ferreira comes for vision teaching.", page.Part("Who comes").Texts(".times li"));
        Assert.Contains("Nobody comes on Monday 12 October: Staff day.", page.Part("Who comes").Texts("p"));
        Assert.Contains("Occupational therapy with Bram Nakamura did not take place: we could not send anybody.", page.Part("The last two weeks").Texts(".times li"));
        Assert.Contains("Ask Marisol Quenby", page.Part("Who to ask").Text("p"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Minutes_are_one_sentence_a_service_and_a_decision_says_when_the_family_was_told()
    {
        var minutes = (await portal.PageAsync(portal.Team.Ines, Wren)).Part("Where we are with the minutes");

        Assert.Contains("300 of the 348 minutes due so far were given; 48 minutes not yet given; plan: the extra visits to catch up have no dates yet.", minutes.Texts("dd p"));
        Assert.Contains(
            "Of what was not given around 15 September, the team decided on 21 September that 45 minutes need not be made up; you were told on 22 September.",
            minutes.Texts("dd p"));
    }

    [Theory]
    [InlineData("Jonah")]
    [InlineData("on course")]
    [InlineData("to make up")]
    [InlineData("below pace")]
    [InlineData("provider unwell")]
    [InlineData("IEP")]
    public async Task Family_page_holds_no_other_child_no_status_and_no_staff_word(string word)
    {
        var page = await portal.PageAsync(portal.Team.Ines, Wren);

        Assert.DoesNotContain(word, page.Text("main"), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Family_starts_on_its_page_and_finds_nothing_else()
    {
        var browser = await portal.BrowserAsync(portal.Team.Ines);

        using var start = await browser.GetAsync("/", TestContext.Current.CancellationToken);
        Assert.Equal(Wren, start.Headers.Location?.OriginalString);
        foreach (var path in new[] { "/caseload", $"/learners/{portal.Team.Wren.Id}", $"/learners/{portal.Team.Wren.Id}/access", $"/learners/{portal.Team.Wren.Id}/teach/Cautions", $"/family/{portal.Team.Jonah.Id}" })
        {
            using var answer = await browser.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.True(answer.StatusCode == HttpStatusCode.NotFound, path);
        }
    }
}
