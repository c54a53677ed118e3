using System.IO.Compression;
using System.Net;
using System.Text.RegularExpressions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Moves;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Moves;

/// <summary>Last day, hand-over, moves in and out, as a browser meets them.</summary>
public sealed partial class MovesPagesTests(AccessWorld world) : IClassFixture<AccessWorld>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private int Leaver => world.Wren.Others["person"];

    [Fact]
    public async Task Last_day_is_set_by_the_administrator_and_the_case_manager_hands_over_and_files()
    {
        var administrator = await world.BrowserAsync(Visitor.Administrator);
        var manager = await world.BrowserAsync(Visitor.CaseManager);
        var page = $"/people/{Leaver}/last-day";

        Assert.Contains("Mark as finished", await administrator.GetStringAsync(page, Stop), StringComparison.Ordinal);
        Assert.Contains("1 service", await manager.GetStringAsync(page, Stop), StringComparison.Ordinal);
        Assert.Contains("1 service", await (await world.BrowserAsync(Visitor.ProviderOnTeam)).GetStringAsync(page, Stop), StringComparison.Ordinal);
        Assert.Contains("Nothing of your learners is left to decide", await (await world.BrowserAsync(Visitor.ProviderElsewhere)).GetStringAsync(page, Stop), StringComparison.Ordinal);

        using var early = await SendAsync(administrator, $"{page}?handler=Finish", page, []);
        Assert.Contains("not decided yet", await early.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        var over = $"/learners/{world.Wren.Learner.Id}/hand-over/{Leaver}";
        using var handed = await SendAsync(manager, over, over, new() { ["Input.FromDay"] = "2027-05-01" });
        Assert.Equal(page, handed.Headers.Location?.OriginalString);
        Assert.Contains("To nobody yet", await manager.GetStringAsync(page, Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Visit_that_was_left_is_decided_on_its_own_page_by_the_case_manager_alone()
    {
        var wren = world.Wren;
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = wren.Learner.Id,
            ServiceId = wren.Service,
            ProviderId = Leaver,
            Zone = "America/Los_Angeles",
            LearnersTime = true,
        };
        visit.TakePlace(new(2027, 5, 4), new(9, 0), 45);
        await world.Agency.AddAsync(visit);
        var (manager, page) = (await world.BrowserAsync(Visitor.CaseManager), $"/visits/{visit.Id}/left");

        Assert.Contains("Who comes instead of", await manager.GetStringAsync(page, Stop), StringComparison.Ordinal);
        using (var other = await (await world.BrowserAsync(Visitor.ProviderOnTeam)).GetAsync(page, Stop))
            Assert.Equal(HttpStatusCode.NotFound, other.StatusCode);
        using var nobody = await SendAsync(manager, page, page, new() { ["Input.To"] = "" }, "Input.Version");
        Assert.Contains("say below that nobody comes", await nobody.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        using var decided = await SendAsync(manager, $"{page}?handler=Nobody", page, [], "Input.Version");
        Assert.Equal($"/learners/{wren.Learner.Id}/hand-over/{Leaver}", decided.Headers.Location?.OriginalString);
        Assert.Contains("nobody assigned", await manager.GetStringAsync($"/visits/{visit.Id}", Stop), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Visit_that_was_filed_says_so_ever_after()
    {
        await world.Agency.AddAsync(new FiledItemRow { LearnerId = world.Wren.Learner.Id, PersonId = Leaver, VisitId = world.Wren.LoggedVisit, Words = "left before <b>writing</b> it", FiledBy = world.PersonOf(Visitor.CaseManager) });

        var visit = await (await world.BrowserAsync(Visitor.ProviderOnTeam)).GetStringAsync($"/visits/{world.Wren.LoggedVisit}", Stop);

        Assert.Contains("left before &lt;b&gt;writing&lt;/b&gt; it", visit, StringComparison.Ordinal);
        Assert.Contains("can no longer be logged", visit, StringComparison.Ordinal);
    }

    [Fact]
    public async Task File_is_made_once_read_as_it_was_and_packed_as_tables()
    {
        var manager = await world.BrowserAsync(Visitor.CaseManager);
        var page = $"/learners/{world.Wren.Learner.Id}/moves-out";

        using var written = await SendAsync(manager, $"{page}?handler=Write", page, new() { ["Written.Works"] = "A long wait & one thing at a time" }, "Written.Version");
        Assert.Equal(page, written.Headers.Location?.OriginalString);
        using var made = await SendAsync(manager, $"{page}?handler=Make", page, [], "version");
        Assert.Equal(page, made.Headers.Location?.OriginalString);
        var newest = FileAddress().Match(await manager.GetStringAsync(page, Stop)).Value;

        var file = await manager.GetStringAsync(newest, Stop);
        Assert.Contains("A long wait &amp; one thing at a time", file, StringComparison.Ordinal);
        Assert.Contains("60 minutes a week", file, StringComparison.Ordinal);
        using var archive = new ZipArchive(new MemoryStream(await manager.GetByteArrayAsync($"{newest}?handler=zip", Stop)));
        Assert.Equal(["brought-forward.csv", "compensatory.csv", "file.json", "goals.csv", "how-we-teach.csv", "minutes.csv", "services.csv"], archive.Entries.Select(e => e.FullName).Order());
        using var access = new StringReader(await manager.GetStringAsync($"/learners/{world.Wren.Learner.Id}/access", Stop));
        Assert.Contains("disclosure to", await access.ReadToEndAsync(Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Plan_from_elsewhere_is_noted_with_its_words_and_what_became_of_it()
    {
        var manager = await world.BrowserAsync(Visitor.CaseManager);
        var page = $"/learners/{world.Wren.Learner.Id}/moves-in";

        using var refused = await SendAsync(manager, $"{page}?handler=Service", page, new() { ["Comparable.Words"] = "" });
        Assert.Contains("Copy what the other plan says", await refused.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        using var saved = await SendAsync(manager, $"{page}?handler=Service", page, new() { ["Comparable.Words"] = "OT 60 min/wk", ["Comparable.Service"] = $"{world.Wren.Service}" });
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        Assert.Contains("OT 60 min/wk", await (await world.BrowserAsync(Visitor.ProviderOnTeam)).GetStringAsync(page, Stop), StringComparison.Ordinal);
    }

    /// <summary>Sends a form with the operation and the version that the page shows.</summary>
    private static async Task<HttpResponseMessage> SendAsync(HttpClient browser, string to, string from, Dictionary<string, string> fields, string version = "version")
    {
        var html = await browser.GetStringAsync(from, Stop);
        fields["operation"] = $"{Guid.CreateVersion7()}";
        if (Regex.Match(html, $"name=\"{Regex.Escape(version)}\"[^>]*value=\"(\\d+)\"") is { Success: true } found)
            fields[version] = found.Groups[1].Value;
        return await browser.SendFormAsync(to, fields, tokenFrom: from);
    }

    [GeneratedRegex("/learners/\\d+/moves-out/\\d+")]
    private static partial Regex FileAddress();
}
