using System.IO.Compression;
using System.Net;
using CsvHelper;
using Microsoft.AspNetCore.Hosting;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Core.Rights;
using TeamCircle.Data.People;
using TeamCircle.Data.Rights;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Retention;

/// <summary>The scenario's portal with a director, where a person may open a hundred pages a minute.</summary>
public sealed class RecordsPortal(PgAssembly server) : TeamPortal(server)
{
    public const int EachMinute = 100;

    public PersonRow Solveig { get; private set; } = null!;

    protected override async Task FillAsync()
    {
        await base.FillAsync();
        Solveig = await Agency.AddAsync(new PersonRow { Email = "solveig@tallowfern.example", Name = "Solveig Harrow" });
        await Agency.AddAsync(new PersonRoleRow { PersonId = Solveig.Id, Role = Role.Director, FromDay = new(2026, 8, 1) });
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.UseSetting("Limits:PersonEachMinute", $"{EachMinute}");
    }
}

/// <summary>A whole record as a copy for a parent, its parts destroyed, and whoever reads many records at once.</summary>
public sealed class RecordPagesTests(RecordsPortal portal) : IClassFixture<RecordsPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Task<string> PageAsync(HttpClient browser, string path) => browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop);

    [Fact]
    public async Task Copy_for_a_parent_holds_the_whole_record_and_no_other_child_and_stands_in_the_record_of_access()
    {
        const string Formula = "=HYPERLINK(\"http://evil.example\")";
        var (wren, jonah) = (portal.Team.Wren, portal.Team.Jonah);
        await portal.Agency.ChangeAsync<SessionRow>(s => s.LearnerId == wren.Id && s.OnDay == new LocalDate(2026, 8, 21), s => s.Note = $"{Formula} <b>cup</b>");
        await portal.Agency.ChangeAsync<SessionRow>(s => s.LearnerId == jonah.Id, s => s.Note = "only of Jonah's");
        var request = await portal.Agency.AddAsync(new RecordRequestRow { LearnerId = wren.Id, Kind = RequestKind.See, ReceivedOn = new(2026, 10, 1), AskedBy = "Ines Belmares", Words = "all of it", EnteredBy = portal.Team.Marisol.Id });
        var browser = await portal.BrowserAsync(portal.Team.Marisol);

        using var answer = await (await FilledForm.OpenAsync(browser, $"/learners/{wren.Id}/requests/{request.Id}", "form[action*=Copy]")).SendAsync("Copy");

        Assert.Equal(("application/zip", "record.zip"), (answer.Content.Headers.ContentType?.MediaType, answer.Content.Headers.ContentDisposition?.FileName));
        using var zip = new ZipArchive(await answer.Content.ReadAsStreamAsync(Stop));
        var files = new Dictionary<string, string>();
        foreach (var entry in zip.Entries)
        {
            using var text = new StreamReader(entry.Open());
            files[entry.FullName] = await text.ReadToEndAsync(Stop);
        }
        var page = files["read-me-first.html"];
        Assert.Contains("The record of Wren Belmares", page, StringComparison.Ordinal);
        Assert.Contains("&lt;b&gt;cup&lt;/b&gt;", page, StringComparison.Ordinal);
        Assert.Contains("Odalys Ferreira", page, StringComparison.Ordinal); // who gave it, by name and not by number
        var sessions = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Sessions.IgnoreQueryFilters().CountAsync(s => s.LearnerId == wren.Id, Stop));
        using var csv = new CsvReader(new StringReader(files["tables/sessions.csv"].TrimStart('\uFEFF')), System.Globalization.CultureInfo.InvariantCulture);
        var notes = csv.GetRecords<dynamic>().Select(r => (string)((IDictionary<string, object>)r)["note"]).ToList();
        Assert.Equal(sessions, notes.Count);
        Assert.Contains(notes, n => n.StartsWith("'=HYPERLINK", StringComparison.Ordinal)); // ASVS 1.2.10
        foreach (var other in new[] { "only of Jonah's", jonah.Name, "Lautele", "password", "token_hash" })
            Assert.DoesNotContain(files, f => f.Value.Contains(other, StringComparison.OrdinalIgnoreCase));
        var ground = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Accesses.Where(a => a.Page == "GET /Rights/Request Copy").Select(a => a.Ground).SingleAsync(Stop));
        Assert.Equal("copy for Ines Belmares, request of 2026-10-01 (34 CFR 300.613)", ground);
    }

    [Fact]
    public async Task Family_s_own_request_goes_through_the_pages_of_two_people_and_shows_what_remains()
    {
        var (sefa, address) = (portal.Team.Sefa, $"/learners/{portal.Team.Sefa.Id}/retention");
        await portal.Agency.ChangeAsync<SessionRow>(s => s.LearnerId == sefa.Id, s => s.Note = "a note to go");
        var (manager, director) = (await portal.BrowserAsync(portal.Team.Marisol), await portal.BrowserAsync(portal.Solveig));
        await portal.Agency.AddAsync(new RelationRow { LearnerId = sefa.Id, PersonId = portal.Team.Marisol.Id, Kind = Relation.CaseManager, FromDay = new(2026, 8, 17) });

        using var asked = await (await FilledForm.OpenAsync(manager, address, "form[action*=Ask]")).Type("Asked.Kind", $"{RecordKind.Notes}").Type("Asked.AskedBy", "Malia Lautele").SendAsync("Ask");
        Assert.Equal(HttpStatusCode.Redirect, asked.StatusCode);
        Assert.DoesNotContain("Destroy now", await PageAsync(manager, address), StringComparison.Ordinal);
        Assert.Contains("TF-033", await PageAsync(director, "/settings/retention"), StringComparison.Ordinal);
        using var agreed = await (await FilledForm.OpenAsync(director, address, "form[action*=Agree]")).SendAsync("Agree");
        Assert.Equal(HttpStatusCode.Redirect, agreed.StatusCode);
        Assert.DoesNotContain("Destroy now", await PageAsync(director, address), StringComparison.Ordinal); // not by the same person
        using var destroyed = await (await FilledForm.OpenAsync(manager, address, "form[action*=Destroy]")).SendAsync("Destroy");
        Assert.Equal(HttpStatusCode.Redirect, destroyed.StatusCode);

        var page = FilledForm.Parse(await PageAsync(manager, address)).QuerySelector("main")!.TextContent;
        Assert.Contains("by Marisol Quenby; Solveig Harrow agreed", page, StringComparison.Ordinal);
        Assert.Contains("Day, times, minutes and who came stay.", page, StringComparison.Ordinal);
        Assert.Equal(0, await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Sessions.IgnoreQueryFilters().CountAsync(s => s.LearnerId == sefa.Id && s.Note != null, Stop)));
    }

    [Fact]
    public async Task Rule_is_set_by_a_director_and_the_letter_tells_the_family_in_both_languages()
    {
        var director = await portal.BrowserAsync(portal.Solveig);
        var again = await (await FilledForm.OpenAsync(director, "/settings/retention")).Type("Input.Kind", $"{RecordKind.Pictures}").Type("Input.Years", "7").SendForAgainAsync();
        Assert.Contains("Choose what the years are counted from.", again.Words, StringComparison.Ordinal);
        using var set = await again.Type("Input.From", $"{CountedFrom.LearnerLeft}").Type("Input.Reason", "State schedule GS-7").SendAsync();
        Assert.Equal(HttpStatusCode.Redirect, set.StatusCode);
        Assert.Contains("7 years after the learner&#x27;s last day here; the family has 60 days", await PageAsync(director, "/settings/retention"), StringComparison.Ordinal);

        await portal.Agency.AddAsync(new Data.Retention.DestructionRow { LearnerId = portal.Team.Wren.Id, Kind = RecordKind.Pictures, UpTo = new(2026, 9, 30), RuleId = 1, Found = 3, ProposedOn = new(2026, 10, 1), NoticeDays = 60 });
        var letter = FilledForm.Parse(await PageAsync(await portal.BrowserAsync(portal.Team.Marisol), $"/learners/{portal.Team.Wren.Id}/retention/letter"));
        Assert.Contains("Pictures, up to 30 September 2026. Not before 60 days after you get this letter.", letter.QuerySelector("[lang=en]:not(html)")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Fotos, hasta el 30 de septiembre de 2026.", letter.QuerySelector("[lang=es]")!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>ASVS 2.4.1: a script that reads one record after the other is stopped, and an administrator sees whose sign-in it was.</summary>
    [Fact]
    public async Task Whoever_opens_records_faster_than_anybody_reads_is_stopped_and_an_administrator_sees_it()
    {
        var (reader, administrator) = (await portal.BrowserAsync(portal.Team.Priya), await portal.BrowserAsync(portal.Team.Dele));
        Assert.DoesNotContain("Opened too many pages", await PageAsync(administrator, "/settings"), StringComparison.Ordinal);

        var statuses = new List<HttpStatusCode>();
        for (var i = 0; i <= RecordsPortal.EachMinute + 3; i++)
        {
            using var answer = await reader.GetAsync($"/learners/{portal.Team.Wren.Id}/plan", Stop);
            statuses.Add(answer.StatusCode);
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, statuses[^1]);
        Assert.InRange(statuses.Count(s => s == HttpStatusCode.OK), RecordsPortal.EachMinute - 3, RecordsPortal.EachMinute);
        var page = FilledForm.Parse(await PageAsync(administrator, "/settings")).QuerySelector("main")!.TextContent;
        Assert.Equal(1, page.Split("Priya Lindqvist").Length - 1); // once, not for each refusal
    }

    /// <summary>ASVS 15.3.3: what a form does not offer can't be set by sending it along.</summary>
    [Fact]
    public async Task Fields_that_a_form_does_not_offer_change_nothing()
    {
        var (wren, jonah) = (portal.Team.Wren, portal.Team.Jonah);
        var browser = await portal.BrowserAsync(portal.Team.Marisol);
        var form = await FilledForm.OpenAsync(browser, $"/learners/{wren.Id}/requests");
        form.Tick("Input.Learner", $"{jonah.Id}").Tick("Input.EnteredBy", $"{portal.Team.Priya.Id}").Tick("Input.Answer", "Shown").Tick("Input.AgencyId", "7");

        using var saved = await form.Type("Input.Kind", "Amend").Type("Input.ReceivedOn", "2026-09-01").Type("Input.AskedBy", "Ines Belmares").Type("Input.Words", "a field too many").SendAsync();

        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        var row = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.RecordRequests.SingleAsync(r => r.Words == "a field too many", Stop));
        Assert.Equal((wren.Id, portal.Team.Marisol.Id, null), (row.LearnerId, row.EnteredBy, row.Answer));
        await portal.Agency.ChangeAsync<RecordRequestRow>(r => r.Id == row.Id, r => (r.Answer, r.AnsweredOn, r.AnsweredBy, r.AnswerWords) = (RequestAnswer.Amended, new(2026, 9, 2), portal.Team.Marisol.Id, "done"));
    }
}
