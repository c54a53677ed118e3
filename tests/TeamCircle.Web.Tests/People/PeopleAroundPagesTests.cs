using System.Net;
using AngleSharp.Html.Dom;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.People;

/// <summary>A substitute's day and the days around it, an assistant's log, and who has read the plan, over HTTP with the clock moved on.</summary>
public sealed class PeopleAroundPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static readonly LocalDate Begin = new(2026, 8, 17), Friday = SampleTeam.Today;

    private readonly Dictionary<(int, DateTime), HttpClient> _browsers = [];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private int Wren => portal.Team.Wren.Id;

    private async Task<PersonRow> ColleagueAsync(string name, params Discipline[] disciplines)
    {
        var person = await portal.Agency.AddAsync(new PersonRow { Name = name, Email = name.Split(' ')[0].ToLowerInvariant() + "@tallowfern.example" });
        await portal.Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = Begin });
        foreach (var discipline in disciplines)
            await portal.Agency.AddAsync(new PersonDisciplineRow { PersonId = person.Id, Discipline = discipline });
        await portal.AddAccountsAsync();
        return person;
    }

    /// <summary>A browser of that person, signed in at the clock's time: an earlier sign-in has ended by then.</summary>
    private async Task<HttpClient> BrowserAsync(PersonRow person)
    {
        var key = (person.Id, portal.Agency.Clock.GetUtcNow().UtcDateTime);
        if (!_browsers.TryGetValue(key, out var browser))
        {
            browser = portal.CreateClient(new() { BaseAddress = new Uri("https://portal.tallowfern.example"), AllowAutoRedirect = false });
            (await browser.SignInAsync(person.Email)).Dispose();
            _browsers[key] = browser;
        }
        return browser;
    }

    private async Task<IHtmlDocument> PageAsync(PersonRow person, string path) =>
        FilledForm.Parse(await (await BrowserAsync(person)).GetStringAsync(new Uri(path, UriKind.Relative), Stop));

    private async Task<HttpStatusCode> StatusAsync(PersonRow person, string path)
    {
        using var answer = await (await BrowserAsync(person)).GetAsync(new Uri(path, UriKind.Relative), Stop);
        return answer.StatusCode;
    }

    private async Task<FilledForm> FormAsync(PersonRow person, string path, string selector = "main form[method=post]") =>
        await FilledForm.OpenAsync(await BrowserAsync(person), path, selector);

    private Task<Guid> VisitAsync(PersonRow provider, LocalDate day, LocalTime start) => portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Visits
        .Where(v => v.LearnerId == Wren && v.ProviderId == provider.Id && v.OnDay == day && v.StartTime == start && v.Live).Select(v => v.Id).SingleAsync(Stop));

    [Fact]
    public async Task Substitute_reads_first_logs_and_finds_nothing_the_next_day()
    {
        var (odalys, runa) = (portal.Team.Odalys, await ColleagueAsync("Runa Castell", Discipline.Vision));
        var visit = await VisitAsync(odalys, Friday, new(9, 30));
        Assert.DoesNotContain("Wren", (await PageAsync(runa, "/")).Text("main"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(runa, $"/learners/{Wren}/read-first"));

        var sent = await (await FormAsync(odalys, $"/visits/{visit}/somebody-else")).Type("Input.Person", $"{runa.Id}").SaveAsync();
        Assert.Contains("Runa Castell comes on 2 October", sent, StringComparison.Ordinal);
        Assert.Contains("Runa Castell, with Wren Belmares", (await PageAsync(portal.Team.Marisol, "/")).Text("main"), StringComparison.Ordinal);

        // Before she has read it, the day leads there and nowhere else.
        var today = await PageAsync(runa, "/");
        Assert.Equal($"/learners/{Wren}/read-first", today.QuerySelector(".then a")!.GetAttribute("href"));
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(runa, $"/visits/{visit}/log"));
        var first = await FormAsync(runa, $"/learners/{Wren}/read-first");
        foreach (var said in new[] { "Swallowing: nothing by mouth", "Turns away and closes her hand", "In the wedge chair", "9:30 to 10:00 am" })
            Assert.Contains(said, first.Words, StringComparison.Ordinal);
        await first.SaveAsync();
        Assert.Equal($"/visits/{visit}/log", (await PageAsync(runa, "/")).QuerySelector(".then a")!.GetAttribute("href"));

        // What she may see and what not; then the visit is over.
        foreach (var path in new[] { $"/learners/{Wren}", $"/learners/{Wren}/plan", $"/learners/{Wren}/routines", $"/calendar?learner={Wren}" })
            Assert.Equal(HttpStatusCode.OK, await StatusAsync(runa, path));
        foreach (var path in new[] { $"/learners/{Wren}/reports", $"/learners/{Wren}/summaries", $"/learners/{Wren}/close", $"/visits/{visit}/hand-over" })
            Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(runa, path));
        Assert.DoesNotContain("Wren", (await PageAsync(runa, "/audit")).Text("main"), StringComparison.Ordinal);
        portal.Agency.Clock.Advance(TimeSpan.FromHours(2));
        var logged = await (await FormAsync(runa, $"/visits/{visit}/log")).SaveAsync();
        Assert.Contains("30 minutes counted", logged, StringComparison.Ordinal);
        Assert.Contains("Runa Castell (new person)", logged, StringComparison.Ordinal);

        portal.Agency.Clock.Advance(TimeSpan.FromDays(1));
        foreach (var path in new[] { $"/learners/{Wren}", $"/learners/{Wren}/read-first", $"/learners/{Wren}/plan", $"/visits/{visit}", $"/visits/{visit}/log" })
            Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(runa, path));
        foreach (var list in new[] { "/", "/caseload", "/calendar" })
            Assert.DoesNotContain("Wren", (await PageAsync(runa, list)).Text("main"), StringComparison.Ordinal);
        Assert.Contains("Runa Castell (new person)", (await PageAsync(odalys, $"/visits/{visit}")).Text("main"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Assistants_log_is_read_and_signed_from_Today_and_a_plan_says_who_has_read_it()
    {
        var (bram, joss) = (portal.Team.Bram, await ColleagueAsync("Joss Ahlgren"));
        await portal.Agency.AddAsync(new RelationRow { LearnerId = Wren, PersonId = joss.Id, Kind = Relation.Assistant, FromDay = Begin, SupervisorId = bram.Id });
        var service = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Services.SingleAsync(s => s.LearnerId == Wren && s.Discipline == Discipline.OccupationalTherapy, Stop));
        await portal.Agency.ChangeAsync<ServiceVersionRow>(v => v.ServiceId == service.Id, v => v.AssistantsCount = true);
        var log = await FormAsync(joss, "/visits/new/log");
        var saved = await log.Type("Service", $"{service.Id}").Type("Input.OnDay", "2026-09-30").Type("Input.Start", "15:00").Type("Input.End", "15:45").SaveAsync();
        Assert.Contains("It counts once the supervisor has countersigned it.", saved, StringComparison.Ordinal);
        Assert.Contains("Not countersigned yet: counts 0 minutes until the supervisor has signed", saved, StringComparison.Ordinal);

        var sign = (await PageAsync(bram, "/")).QuerySelector("a[href$='/countersign'].act")!.GetAttribute("href")!;
        Assert.Contains("not countersigned yet", (await PageAsync(bram, $"/audit/services/{service.Id}")).Text("main"), StringComparison.Ordinal);
        var page = await FormAsync(bram, sign);
        Assert.Contains("3:00 to 3:45 pm", page.Words, StringComparison.Ordinal);
        Assert.Contains("45 minutes count.", await page.SaveAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, await StatusAsync(bram, sign)); // read and signed: it is read on the visit's page
        Assert.DoesNotContain("not countersigned yet", (await PageAsync(bram, $"/audit/services/{service.Id}")).Text("main"), StringComparison.Ordinal);

        Assert.Contains("Say that you have read it", (await PageAsync(bram, "/")).Text("main"), StringComparison.Ordinal);
        await (await FormAsync(bram, $"/learners/{Wren}/acknowledged")).SaveAsync();
        var plan = (await PageAsync(portal.Team.Marisol, $"/learners/{Wren}/plan")).Part("Who has read it").Texts(".rows li");
        Assert.Contains(plan, row => row.StartsWith("Bram Nakamura", StringComparison.Ordinal) && row.Contains("Read it on", StringComparison.Ordinal));
        Assert.Contains(plan, row => row.StartsWith("Priya Lindqvist", StringComparison.Ordinal) && row.Contains("Has not said", StringComparison.Ordinal));
        Assert.Contains(plan, row => row.StartsWith("Joss Ahlgren", StringComparison.Ordinal) && row.Contains("Assistant", StringComparison.Ordinal));
    }
}
