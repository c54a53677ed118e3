using System.Globalization;
using System.Net;
using CsvHelper;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MiniExcelLibs;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.People;
using TeamCircle.Data;
using TeamCircle.Data.Closing;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Tests.Closing;

/// <summary>A closed count as a document over HTTP: both editions as they were sealed, whoever may read them, whatever is recorded later.</summary>
public sealed class StatementPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private const string Formula = "=1+1 she was asleep";

    private string Address(int period) => $"/learners/{portal.Team.Sefa.Id}/statements/{period}";

    private Task<T> ReadAsync<T>(Func<PortalDb, Task<T>> read) => portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, read);

    /// <summary>Sefa's first period, closed and then restated with Bram's last visit corrected from 30 to 15 minutes; the clock stands after the period.</summary>
    private async Task<int> ClosedAndRestatedAsync()
    {
        var (agency, sefa) = (portal.Agency, portal.Team.Sefa.Id);
        agency.Clock.SetUtcNow(new DateTimeOffset(2026, 10, 20, 18, 0, 0, TimeSpan.Zero));
        var period = await ReadAsync(db => db.Periods.Where(p => p.Name == "Period 1").Select(p => p.Id).SingleAsync());
        var marisol = (await agency.CallerAsync(portal.Team.Marisol.Id))!;
        // The portal's own operations: its seal key has sealed what came before.
        await using var services = portal.Services.CreateAsyncScope();
        var count = (await agency.Get<ReadCount>().RunAsync(marisol, Scope.Of(marisol), sefa, period))!;
        var words = count.Obstacles.ToDictionary(o => o.Obstacle.Key, _ => (string?)Formula);
        var first = Must(await services.ServiceProvider.GetRequiredService<ClosePeriod>().RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = sefa,
            Period = period,
            Mark = count.Mark,
            Credential = "Special education teacher, licence 204",
            Words = words,
        }));
        var session = await ReadAsync(db => db.Sessions.Where(s => s.LearnerId == sefa && s.Live).OrderByDescending(s => s.OnDay).Select(s => s.Id).FirstAsync());
        Must(await services.ServiceProvider.GetRequiredService<RestatePeriod>().RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = sefa,
            Period = period,
            Statement = first.Statement,
            Reason = "The visit ended early.",
            Correction = new() { Session = session, Start = "10:00", End = "10:15", Why = Formula },
            Credential = "Special education teacher, licence 204",
            Words = words,
        }));
        return period;
    }

    private static T Must<T>(Outcome<T> outcome) where T : class
    {
        Assert.Empty(outcome.Problems);
        return outcome.Value!;
    }

    [Fact]
    public async Task Both_editions_show_what_was_sealed_in_every_form_whatever_becomes_of_the_rows()
    {
        var period = await ClosedAndRestatedAsync();
        var answers = await ReadAsync(db => db.SealedLines.Where(l => l.LearnerId == portal.Team.Sefa.Id).OrderBy(l => l.StatementId).Select(l => l.Answer).ToListAsync());
        Assert.Equal([210, 195], answers.Select(a => SealedAnswer.Read(a)["given"])); // seven visits of 30 minutes, then one of them 15
        await portal.Agency.ChangeAsync<PersonRow>(p => p.Id == portal.Team.Bram.Id, p => p.Name = "Another Name");
        try
        {
            for (var edition = 1; edition <= 2; edition++)
            {
                var figures = SealedAnswer.Read(answers[edition - 1]);
                var page = await portal.PageAsync(portal.Team.Marisol, $"{Address(period)}/{edition}");
                Assert.Equal(
                    new[] { "owed", "notOwed", "due", "given", "lack" }.Select(f => figures[f].ToString(CultureInfo.InvariantCulture)), page.Texts("#sums td.number"));
                Assert.Contains("Bram Nakamura", page.Text("main"), StringComparison.Ordinal);
                Assert.DoesNotContain("Another Name", page.Text("main"), StringComparison.Ordinal);
                Assert.Contains("it is not a decision about entitlement", page.Text(".head"), StringComparison.Ordinal);
                Assert.Empty(page.QuerySelectorAll(".problems"));
                await AssertFilesAsync($"{Address(period)}/{edition}", figures);
            }
            var difference = (await portal.PageAsync(portal.Team.Marisol, Address(period))).Texts("#difference li");
            Assert.Contains("Given fell from 210 to 195 minutes.", difference);
            Assert.Contains("The visit of 30 September by Bram Nakamura was corrected from 30 to 15 minutes.", difference);
        }
        finally
        {
            await portal.Agency.ChangeAsync<PersonRow>(p => p.Id == portal.Team.Bram.Id, p => p.Name = "Bram Nakamura");
        }
        await AssertCorrectingRestatesAsync();
        await AssertWallsAsync(period);
    }

    /// <summary>Whoever wants to correct a visit in the closed count is led to the restatement, or to the visit that says who can.</summary>
    private async Task AssertCorrectingRestatesAsync()
    {
        var visit = await ReadAsync(db => db.Sessions.Where(s => s.LearnerId == portal.Team.Sefa.Id && s.Live).OrderBy(s => s.OnDay).Select(s => s.VisitId).FirstAsync());
        Assert.Equal($"/visits/{visit}/restate", await LeadsToAsync(portal.Team.Marisol, $"/visits/{visit}/correct"));
        Assert.Equal($"/visits/{visit}", await LeadsToAsync(portal.Team.Bram, $"/visits/{visit}/correct"));
        var page = await portal.PageAsync(portal.Team.Bram, $"/visits/{visit}");
        Assert.Contains("Only the learner's case manager can correct this visit", page.Text("main"), StringComparison.Ordinal);
        Assert.Empty(page.QuerySelectorAll("main form"));
    }

    private async Task<string?> LeadsToAsync(PersonRow person, string path)
    {
        using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.Headers.Location?.OriginalString;
    }

    private async Task AssertFilesAsync(string address, SealedAnswer figures)
    {
        var browser = await portal.BrowserAsync(portal.Team.Marisol);
        using var text = new StreamReader(await browser.GetStreamAsync(new Uri($"{address}?handler=Csv", UriKind.Relative)));
        using var csv = new CsvReader(text, CultureInfo.InvariantCulture);
        var rows = csv.GetRecords<dynamic>().Select(r => (IDictionary<string, object>)r).ToList();
        await using var content = new MemoryStream(await browser.GetByteArrayAsync(new Uri($"{address}?handler=Xlsx", UriKind.Relative)));
        var cells = content.Query(useHeaderRow: true).Select(r => (IDictionary<string, object?>)r).ToList();

        Assert.Equal(rows.Count, cells.Count);
        foreach (var (name, figure) in figures.Figures)
        {
            Assert.Equal($"{figure}", Assert.Single(rows, r => $"{r["What"]}" == $"figure: {name}")["Amount"]);
            Assert.Equal(figure, Convert.ToInt32(Assert.Single(cells, r => $"{r["What"]}" == $"figure: {name}")["Amount"], CultureInfo.InvariantCulture));
        }
        Assert.DoesNotContain(cells.SelectMany(r => r.Values), c => c is string cell && cell.StartsWith('='));
    }

    /// <summary>The family and whoever is on no team of hers find nothing; an outside reviewer reads it between the days of the disclosure, without words beside decisions.</summary>
    private async Task AssertWallsAsync(int period)
    {
        var reviewer = await portal.Agency.AddAsync(new PersonRow { Name = "Ruth Ansgar", Email = "ruth@tallowfern.example" });
        await portal.Agency.AddAsync(new PersonRoleRow { PersonId = reviewer.Id, Role = Role.Reviewer, FromDay = new(2026, 8, 17) });
        var open = await portal.Agency.AddAsync(new RelationRow { LearnerId = portal.Team.Sefa.Id, PersonId = reviewer.Id, Kind = Relation.Reviewer, FromDay = new(2026, 8, 17), ToDay = new(2026, 12, 18), Ground = "letter of the state office" });
        await portal.Agency.AddAsync(new RelationRow { LearnerId = portal.Team.Sefa.Id, PersonId = portal.Team.Ines.Id, Kind = Relation.Family, FromDay = new(2026, 8, 17) });
        await portal.AddAccountsAsync();
        foreach (var handler in new[] { "", "?handler=Csv", "?handler=Xlsx" })
        {
            Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Ines, Address(period) + handler));
            Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(portal.Team.Odalys, Address(period) + handler));
            Assert.Equal(HttpStatusCode.OK, await StatusAsync(reviewer, Address(period) + handler));
        }
        // Also where the page's own wall should fail, the database gives a family nothing.
        var family = portal.Agency.Person(portal.Team.Ines.Id, portal.Team.Sefa.Id) with { Staff = false };
        Assert.Equal((0, 0), await portal.Agency.Portal.ReadAsync(family, async db => (await db.Statements.CountAsync(), await db.SealedLines.CountAsync())));
        Assert.Contains("Period 1, the closed count", (await portal.PageAsync(reviewer, $"/learners/{portal.Team.Sefa.Id}/review")).Texts("#routines a"));

        await portal.Agency.ChangeAsync<RelationRow>(r => r.Id == open.Id, r => r.ToDay = new LocalDate(2026, 10, 19));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(reviewer, Address(period)));
    }

    private async Task<HttpStatusCode> StatusAsync(PersonRow person, string path)
    {
        using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }
}
