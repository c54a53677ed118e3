using System.IO.Compression;
using System.Net;
using System.Text;
using AngleSharp.Html.Dom;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Data.People;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Import;

/// <summary>The page on which an administrator brings the agency's files.</summary>
public sealed class ImportPageTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private const string Page = "/settings/import";

    private const string People = "email,name,roles\r\nnew@tallowfern.example,New Person,provider\r\nno address,Nobody,provider\r\n";

    [Fact]
    public async Task Files_are_read_in_the_background_and_the_page_says_what_was_stored()
    {
        var browser = await AdministratorAsync();

        using var sent = await UploadAsync(browser, ("terms.csv", "name,first day,last day\r\nSummer,2027-06-14,2027-07-09\r\n"), ("notes.txt", "x"));

        Assert.Equal(HttpStatusCode.Redirect, sent.StatusCode);
        var page = await EndAsync(browser);
        Assert.Contains("Everything is stored", page, StringComparison.Ordinal);
        Assert.Contains("Passed over", page, StringComparison.Ordinal);
        Assert.Contains("1 row stored", page, StringComparison.Ordinal);
        Assert.Equal(1, await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Terms.CountAsync(t => t.Name == "Summer")));
        await WellFormed.AssertAsync(browser, Page);
    }

    [Fact]
    public async Task Refused_rows_are_listed_the_good_ones_stored_on_request_and_the_others_taken_along()
    {
        var browser = await AdministratorAsync();
        (await UploadAsync(browser, ("people.csv", People))).Dispose();
        Assert.Contains("This is not an e-mail address.", await EndAsync(browser), StringComparison.Ordinal);
        Assert.Equal(0, await NewPeopleAsync());

        using var refused = await browser.GetAsync(new Uri(Page + "?handler=Refused", UriKind.Relative));
        (await PressAsync(browser, "GoodRows")).Dispose();

        Assert.Contains("no address", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("people-refused.csv", refused.Content.Headers.ContentDisposition!.FileName);
        Assert.Contains("The good rows are stored; 1 was refused", await EndAsync(browser), StringComparison.Ordinal);
        Assert.Equal(1, await NewPeopleAsync());
        (await PressAsync(browser, "Another")).Dispose();
        Assert.Contains("Read and check", await browser.GetStringAsync(new Uri(Page, UriKind.Relative)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_ticked_events_of_a_calendar_become_closures()
    {
        var browser = await AdministratorAsync();
        const string calendar = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:fair\r\nDTSTART;VALUE=DATE:20270301\r\nSUMMARY:Book fair\r\nEND:VEVENT\r\n"
            + "BEGIN:VEVENT\r\nUID:break\r\nDTSTART;VALUE=DATE:20270308\r\nSUMMARY:Spring break\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n";
        (await UploadAsync(browser, ("closures.ics", calendar))).Dispose();
        var choice = await FilledForm.OpenAsync(browser, Page);
        Assert.Contains("Book fair, 1 March 2027", choice.Words, StringComparison.Ordinal);
        await WellFormed.AssertAsync(browser, Page);

        (await choice.Tick("closures", "break").SendAsync()).Dispose();

        Assert.Contains("Everything is stored", await EndAsync(browser), StringComparison.Ordinal);
        var names = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Closures.Where(c => c.OnDay > new NodaTime.LocalDate(2027, 2, 1)).Select(c => c.Name).ToListAsync());
        Assert.Equal(["Spring break"], names);
    }

    [Fact]
    public async Task Upload_without_a_file_that_can_be_imported_says_which_can()
    {
        var browser = await AdministratorAsync();

        using var nothing = await UploadAsync(browser);
        using var wrong = await UploadAsync(browser, ("list.txt", "x"));

        Assert.Contains("Choose the files first", await nothing.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("services.csv", FilledForm.Parse(await wrong.Content.ReadAsStringAsync()).QuerySelector(".problems")!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>A file is what it holds and not what it is called (ASVS 5.2.2), and a path in its name leads nowhere (5.4.2).</summary>
    [Fact]
    public async Task Name_of_a_file_is_neither_a_path_nor_a_proof_of_what_it_holds()
    {
        var browser = await AdministratorAsync();

        (await UploadAsync(browser, ("../../etc/terms.csv", "\u0089PNG\r\n\u001a\n\0\0\0\rIHDR"))).Dispose();

        var page = await EndAsync(browser);
        Assert.Contains("terms.csv", page, StringComparison.Ordinal);
        Assert.DoesNotContain("etc", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Everything is stored", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OneRoster_set_gives_files_to_complete_and_stores_nothing()
    {
        var browser = await AdministratorAsync();
        var before = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.People.CountAsync());

        (await UploadAsync(browser, [.. Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "Roster")).Select(f => (Path.GetFileName(f), File.ReadAllText(f)))])).Dispose();

        var page = await EndAsync(browser);
        Assert.Contains("The set is read; nothing is stored", page, StringComparison.Ordinal);
        Assert.Contains("users.csv, line 13, email", page, StringComparison.Ordinal);
        Assert.Contains("Not used: ", page, StringComparison.Ordinal);
        await WellFormed.AssertAsync(browser, Page);
        using var files = new ZipArchive(await browser.GetStreamAsync(new Uri(Page + "?handler=Roster", UriKind.Relative)));
        Assert.Equal(["terms.csv", "periods.csv", "people.csv", "learners.csv"], files.Entries.Select(e => e.Name));
        using var learners = new StreamReader(files.GetEntry("learners.csv")!.Open());
        Assert.Contains("WREN,Wren Belmares,,,,,,ines@family.example,", await learners.ReadToEndAsync(), StringComparison.Ordinal);
        Assert.Equal(before, await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.People.CountAsync()));
        (await PressAsync(browser, "Another")).Dispose();
        Assert.Contains("Read and check", await browser.GetStringAsync(new Uri(Page, UriKind.Relative)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Empty_files_hold_their_headers_one_by_one_or_all_in_a_zip()
    {
        var browser = await AdministratorAsync();

        var one = await browser.GetStringAsync(new Uri(Page + "?handler=Template&file=terms.csv", UriKind.Relative));
        using var all = new ZipArchive(await browser.GetStreamAsync(new Uri(Page + "?handler=Template", UriKind.Relative)));

        Assert.Equal("name,first day,last day,kind", one.Trim('\uFEFF', '\r', '\n'));
        Assert.Equal(12, all.Entries.Count);
    }

    /// <summary>An administrator of their own, since everybody has one import at a time.</summary>
    private async Task<HttpClient> AdministratorAsync([System.Runtime.CompilerServices.CallerMemberName] string test = "")
    {
        var person = await portal.Agency.AddAsync(new PersonRow { Email = $"{test.Length}.{test[..10].ToLowerInvariant()}@tallowfern.example", Name = "Dele Okwarre" });
        await portal.Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Core.People.Role.Administrator, FromDay = new(2026, 1, 1) });
        await portal.AddAccountsAsync();
        return await portal.BrowserAsync(person);
    }

    private static async Task<HttpResponseMessage> UploadAsync(HttpClient browser, params (string Name, string Text)[] files)
    {
        var form = await FilledForm.OpenAsync(browser, Page);
        using var content = new MultipartFormDataContent
        {
            { new StringContent(form["__RequestVerificationToken"]!), "__RequestVerificationToken" },
            { new StringContent(form["operation"]!), "operation" },
        };
        foreach (var (name, text) in files)
            content.Add(new ByteArrayContent(Encoding.UTF8.GetBytes(text)), "files", name);
        return await browser.PostAsync(new Uri(Page, UriKind.Relative), content);
    }

    private static async Task<HttpResponseMessage> PressAsync(HttpClient browser, string handler) =>
        await browser.SendFormAsync($"{Page}?handler={handler}", new Dictionary<string, string>(), tokenFrom: Page);

    /// <summary>The page's words once the import has ended; asks again as the page itself does.</summary>
    private static async Task<string> EndAsync(HttpClient browser)
    {
        for (var asked = 0; asked < 600; asked++)
        {
            using var answer = await browser.GetAsync(new Uri(Page, UriKind.Relative));
            var page = FilledForm.Parse(await answer.Content.ReadAsStringAsync());
            if (page.QuerySelector("progress") is null)
                return ((IHtmlElement)page.QuerySelector("main")!).TextContent;
            Assert.Equal("2", Assert.Single(answer.Headers.GetValues("Refresh")));
            await Task.Delay(50);
        }
        throw new TimeoutException("The import did not end.");
    }

    private Task<int> NewPeopleAsync() => portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.People.CountAsync(p => p.Email == "new@tallowfern.example"));
}
