using System.Net;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Mail;
using TeamCircle.Data;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Family;
using TeamCircle.Data.People;
using TeamCircle.Data.Quiet;

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

    [Fact]
    public async Task Page_speaks_spanish_once_it_is_chosen_and_keeps_the_choice()
    {
        var browser = await portal.BrowserAsync(portal.Team.Ines);
        try
        {
            var page = FilledForm.Parse(await browser.GetStringAsync(new Uri($"{Wren}?in=es", UriKind.Relative), TestContext.Current.CancellationToken));
            Assert.Equal("es", page.DocumentElement.GetAttribute("lang"));
            Assert.Contains("9:30 a. m. Odalys Ferreira viene para la enseñanza visual.", page.Part("Quién viene").Texts(".times li"));

            page = await portal.PageAsync(portal.Team.Ines, Wren);
            Assert.Contains(
                "Se dieron 300 de los 348 minutos que tocaban hasta ahora; faltan 48 minutos por dar; plan: las visitas adicionales para recuperarlos todavía no tienen fecha.",
                page.Part("Cómo vamos con los minutos").Texts("dd p"));
        }
        finally
        {
            (await browser.GetAsync(new Uri($"{Wren}?in=en", UriKind.Relative), TestContext.Current.CancellationToken)).Dispose();
        }
    }

    [Fact]
    public async Task Summary_is_written_published_read_corrected_and_withdrawn()
    {
        var (team, list) = (portal.Team, $"/learners/{portal.Team.Wren.Id}/summaries");
        var draft = await DraftAsync(list);
        var id = draft.Split('/')[4];
        var read = $"{Wren}/summaries/{id}";
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, read));
        Assert.Contains("Write one thing that was the child's own.", (await (await FormAsync(team.Marisol, $"{list}/{id}", "form[action*=Publish]")).SendForAgainAsync()).Words, StringComparison.Ordinal);
        await (await FormAsync(team.Marisol, draft)).Type("Input.Hers.English", "She chose the blue cup.").Type("Input.Hers.Spanish", "").Type("Input.SeenBy", "Bram Nakamura").SaveAsync();

        await portal.Agency.AddAsync(new QuietRow { LearnerId = team.Wren.Id, Reason = "in hospice", NamedBy = "Ines Belmares", SetBy = team.Marisol.Id, SetAt = Instant.FromUtc(2026, 9, 21, 16, 0) });
        Assert.Contains(QuietLearners.Refusal, (await (await FormAsync(team.Marisol, $"{list}/{id}", "form[action*=Publish]")).SendForAgainAsync()).Words, StringComparison.Ordinal);
        var stillPage = await portal.PageAsync(team.Ines, Wren);
        Assert.Equal(["The last two weeks", "The team", "Who to ask"], stillPage.Texts("h2"));
        await portal.Agency.ChangeAsync<QuietRow>(q => q.LearnerId == team.Wren.Id, q => (q.EndedBy, q.EndedAt, q.EndedReason) = (team.Marisol.Id, Instant.FromUtc(2026, 9, 22, 16, 0), "a mistake"));

        await (await FormAsync(team.Marisol, $"{list}/{id}", "form[action*=Publish]")).SaveAsync();

        Assert.Equal(1, await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Outbox.CountAsync(m => m.PersonId == team.Ines.Id && m.Kind == MailKind.NewSummary)));
        var spanish = FilledForm.Parse(await (await portal.BrowserAsync(team.Ines)).GetStringAsync(new Uri($"{read}?in=es", UriKind.Relative), TestContext.Current.CancellationToken));
        (await (await portal.BrowserAsync(team.Ines)).GetAsync(new Uri($"{read}?in=en", UriKind.Relative), TestContext.Current.CancellationToken)).Dispose();
        Assert.Equal("She chose the blue cup.", spanish.QuerySelector("ul.tells[lang=en]")!.TextContent.Trim());
        Assert.Contains("Lo vio Bram Nakamura.", spanish.Text("main"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, $"/family/{team.Jonah.Id}/summaries/{id}"));

        using var corrected = await (await FormAsync(team.Marisol, $"{list}/{id}", "details form")).Type("Why", "It was the green cup.").SendAsync("Correct");
        var next = corrected.Headers.Location!.ToString().Split('/')[4];
        await (await FormAsync(team.Marisol, $"{list}/{next}/edit")).Type("Input.Hers.English", "She chose the green cup.").SaveAsync();
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(team.Ines, read)); // the old one is read until the new one is there
        await (await FormAsync(team.Marisol, $"{list}/{next}", "form[action*=Publish]")).SaveAsync();
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, read));
        Assert.Contains("It was the green cup.", (await portal.PageAsync(team.Ines, $"{Wren}/summaries/{next}")).Text("main"), StringComparison.Ordinal);

        await (await FormAsync(team.Marisol, $"{list}/{next}", "details form")).Type("Why", "Shared too early.").SaveAsync("TakeBack");
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Ines, $"{Wren}/summaries/{next}"));
        Assert.Contains("Shared too early.", (await portal.PageAsync(team.Odalys, list)).Text("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Family_tells_the_team_only_where_that_is_switched_on_and_it_waits_for_an_answer()
    {
        var (team, tell) = (portal.Team, $"{Wren}/tell");
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(team.Ines, tell));
        var ines = (await portal.Agency.CallerAsync(team.Ines.Id))!;
        var refused = await Assert.ThrowsAsync<DbUpdateException>(() => portal.Agency.Portal.WriteAsync(
            Scope.OfLearner(ines, team.Wren.Id), Operation.Own("ByHand"), async db =>
            {
                db.Add(new FamilyRemarkRow { AgencyId = portal.Agency.Id, LearnerId = team.Wren.Id, Words = "x", SaidBy = "x", SaidOn = new(2026, 10, 2), EnteredBy = team.Ines.Id, ByFamily = true });
                await db.SaveChangesAsync();
                return Outcome<object>.Of(1);
            }));
        Assert.Equal("42501", ((PostgresException)refused.InnerException!).SqlState);
        await (await FormAsync(team.Dele, "/settings/family")).Type("Input.On", "true").Type("Input.Why", "Parents asked; case managers read it.").SaveAsync();

        var form = await FormAsync(team.Ines, tell);
        var said = await form.Type("Input.Kind", "Away").Type("Input.Words", "We are away on Friday.").SaveAsync();

        Assert.Contains("Sent.", said, StringComparison.Ordinal);
        Assert.NotNull((await portal.PageAsync(team.Marisol, "/")).QuerySelector($"a[href='/learners/{team.Wren.Id}/remarks']"));
        Assert.Null((await portal.PageAsync(team.Bram, "/")).QuerySelector($"a[href='/learners/{team.Wren.Id}/remarks']"));
        await (await FormAsync(team.Marisol, $"/learners/{team.Wren.Id}/remarks", "form[action*=Answer]")).Type("answer", "Thank you, Bram knows.").SaveAsync();
        Assert.Contains("Thank you, Bram knows.", (await portal.PageAsync(team.Ines, tell)).Text("main"), StringComparison.Ordinal);
        Assert.Null((await portal.PageAsync(team.Marisol, "/")).QuerySelector($"a[href='/learners/{team.Wren.Id}/remarks']"));
    }

    [Fact]
    public async Task Refused_request_waits_is_answered_and_the_parents_statement_travels_with_the_visit()
    {
        var (team, requests) = (portal.Team, $"/learners/{portal.Team.Wren.Id}/requests");
        using var noted = await (await FormAsync(team.Marisol, requests)).Type("Input.Kind", "Amend").Type("Input.ReceivedOn", "2026-09-01")
            .Type("Input.AskedBy", "Ines Belmares").Type("Input.Words", "Nobody came that day.").SendAsync();
        var request = noted.Headers.Location!.ToString();
        Assert.Contains("16 October 2026", (await portal.PageAsync(team.Marisol, request)).Text(".head"), StringComparison.Ordinal);
        Assert.NotNull((await portal.PageAsync(team.Marisol, "/")).QuerySelector($"a[href='{request}']"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(team.Bram, request));

        var answer = await FormAsync(team.Marisol, request, "form[action*=Answer]");
        Assert.Contains("A refusal comes with the notice", (await answer.Type("Input.Answer", "Refused").Type("Input.Words", "The log stands.").SendForAgainAsync()).Words, StringComparison.Ordinal);
        await (await FormAsync(team.Marisol, request, "form[action*=Answer]")).Type("Input.Answer", "Refused").Type("Input.Words", "The log stands.").Type("Input.NoticeOn", "2026-10-02").SaveAsync();
        Assert.Null((await portal.PageAsync(team.Marisol, "/")).QuerySelector($"a[href='{request}']"));
        var form = await FormAsync(team.Marisol, request, "form[action*=Statement]");
        var visit = form.Page.QuerySelectorAll("option").Select(o => o.GetAttribute("value")!).First(v => v.StartsWith("Visit:", StringComparison.Ordinal));
        await form.Type("Statement.Place", visit).Type("Statement.Words", "I waited at the door.").Type("Statement.GivenBy", "Ines Belmares").SaveAsync();

        Assert.Contains("I waited at the door.", (await portal.PageAsync(team.Odalys, $"/visits/{visit[6..]}")).Text(".statement"), StringComparison.Ordinal);
        Assert.Empty((await portal.PageAsync(team.Odalys, $"/learners/{team.Wren.Id}")).QuerySelectorAll(".statement"));
    }

    private async Task<FilledForm> FormAsync(PersonRow person, string path, string selector = "main form[method=post]") =>
        await FilledForm.OpenAsync(await portal.BrowserAsync(person), path, selector);

    private async Task<HttpStatusCode> StatusAsync(PersonRow person, string path)
    {
        using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    private async Task<string> DraftAsync(string list)
    {
        using var begun = await (await FormAsync(portal.Team.Marisol, list)).SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, begun.StatusCode);
        return begun.Headers.Location!.ToString();
    }
}
