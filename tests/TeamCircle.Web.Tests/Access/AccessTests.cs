using System.Net;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Data.History;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup.Access;

namespace TeamCircle.Web.Tests.Access;

/// <summary>Every line of the matrix against every kind of visitor, on the running portal with the ids of a real learner.</summary>
public sealed class AccessTests(AccessWorld world) : IClassFixture<AccessWorld>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private readonly Dictionary<HttpClient, string> _proofs = [];

    /// <summary>Pages that exist for some of those whom the matrix lets in, and for what.</summary>
    private static readonly Dictionary<string, string> Narrower = new()
    {
        ["/Account/Provider"] = "only where an identity provider is set up",
        ["/Account/ProviderLink"] = "only where an identity provider is set up",
        ["/Learners/Teach"] = "each part is written by the discipline that owns it",
        ["/Sessions/Confirm"] = "only a session of two who treated together, and only for the one who did not log it",
        ["/Routines/EndHold"] = "only for whoever may end that hold: the owning discipline, the case manager",
    };

    /// <summary>Pages on which a substitute and an assistant write of their own visits and probes alone: those of Wren's record are the provider's.</summary>
    private static readonly HashSet<string> OfOwn =
    [
        "/Sessions/Log", "/Sessions/Correct", "/Sessions/CallOff", "/Sessions/RunningLate", "/Progress/CorrectProbe", "/Commitments/Working",
    ];

    /// <summary>Those who ask for what does not exist under every line; the others ask once a verb and status, and all that they may not see is compared with it.</summary>
    private static readonly HashSet<Visitor> AsksForAbsent = [Visitor.ProviderElsewhere, Visitor.FamilyElsewhere, Visitor.OtherAgency];

    /// <summary>What a page may send to the database once its handler runs; and before: who asks, what they may, the record of access.</summary>
    private const int MostStatements = 10, MostAtTheDoor = 8;

    /// <summary>For whom it is counted: the others open fewer pages, or the same in the same way.</summary>
    private static readonly HashSet<Visitor> Counted =
        [Visitor.CaseManager, Visitor.ProviderOnTeam, Visitor.Administrator, Visitor.Director, Visitor.Family, Visitor.Reviewer];

    /// <summary>Pages that send more, and how much at most: docs/performance.md says why. None may come to send more than it says here.</summary>
    private static readonly Dictionary<string, int> StillMore = new()
    {
        ["/Calendar/Cancel"] = 14,
        ["/Calendar/Change"] = 14,
        ["/Calendar/ChangeFollowing"] = 14,
        ["/Calendar/HandOver"] = 14,
        ["/Calendar/New"] = 12,
        ["/Calendar/School"] = 11,
        ["/Calendar/TakeBackClosure"] = 43,
        ["/Calendar/TakeBackPolicy"] = 38,
        ["/Calendar/Undo"] = 14,
        ["/Closing/BroughtForward"] = 12,
        ["/Closing/Count"] = 14,
        ["/Closing/Reopen"] = 14,
        ["/Closing/Restate"] = 19,
        ["/Closing/TakeBackAward"] = 12,
        ["/Commitments/Audit"] = 45,
        ["/Commitments/Working"] = 14,
        ["/Disputes/Facts"] = 12,
        ["/Family/Facts"] = 15,
        ["/Learners/AddGoal"] = 12,
        ["/Learners/Assign"] = 12,
        ["/Learners/Index"] = 11,
        ["/Learners/Learner"] = 26,
        ["/Learners/Owners"] = 12,
        ["/Learners/Plan"] = 17,
        ["/MakeUps/Index"] = 14,
        ["/Monitoring/File"] = 22,
        ["/Monitoring/Monitor"] = 22,
        ["/Moves/HandOver"] = 23,
        ["/Papers/Pack"] = 12,
        ["/People/SomebodyElse"] = 16,
        ["/Reports/Correct"] = 13,
        ["/Reports/Family"] = 13,
        ["/Reports/Goal"] = 13,
        ["/Reports/Report"] = 24,
        ["/Reports/Review"] = 13,
        ["/Reports/Sign"] = 13,
        ["/Routines/Change"] = 12,
        ["/Routines/Index"] = 17,
        ["/Sessions/CallOff"] = 14,
        ["/Sessions/Confirm"] = 14,
        ["/Sessions/Correct"] = 17,
        ["/Sessions/Countersign"] = 16,
        ["/Sessions/Log"] = 25,
        ["/Sessions/Restate"] = 17,
        ["/Sessions/RunningLate"] = 14,
        ["/Sessions/Today"] = 22,
        ["/Sessions/Visit"] = 35,
    };

    /// <summary>Null where the request just answered sent no more than it may; else how much, and what.</summary>
    private string? TooMany(AccessLine line)
    {
        var (door, page) = (world.Statements.AtTheDoor, world.Statements.OfThePage);
        return door.Count > MostAtTheDoor ? $"{door.Count} statements at the door\n  {string.Join("\n  ", door)}"
            : page.Count > StillMore.GetValueOrDefault(line.Page, MostStatements) ? $"{page.Count} statements\n  {string.Join("\n  ", page)}" : null;
    }

    private static bool MayBeNarrower(AccessLine line, Visitor visitor) =>
        Narrower.ContainsKey(line.Page) || (visitor is Visitor.Substitute or Visitor.Assistant && OfOwn.Contains(line.Page));

    /// <summary>Takes a form from anywhere: a mail program sends it by itself (RFC 8058), and whoever holds the address may do this one thing.</summary>
    private const string FromAnywhere = "/Account/Unsubscribe";

    public static TheoryData<Visitor> Visitors => [.. Enum.GetValues<Visitor>()];

    [Theory]
    [MemberData(nameof(Visitors))]
    public async Task Every_handler_answers_a_visitor_as_the_matrix_says(Visitor visitor)
    {
        var wrong = new List<string>();
        var browser = await world.BrowserAsync(visitor);
        var absent = (await LinesAsync(WrensRecord.AbsentIdOf)).ToDictionary(l => l.Line.Key, l => l.Address);
        var looks = new Dictionary<(string Verb, HttpStatusCode Status), string>(); // how what does not exist looks to this visitor
        var before = await world.LastAccessAsync();
        foreach (var (line, address) in await LinesAsync(world.IdOf))
        {
            using var own = await OwnBrowserAsync(line, visitor);
            using var answer = await SendAsync(own ?? browser, line, address);
            var expected = Expected.Of(line, visitor);
            if (AnswerOf(line, answer) != expected || (expected is Answer.Opened && line.Verb == "GET" && (int)answer.StatusCode >= 400 && !MayBeNarrower(line, visitor)))
                wrong.Add($"{line.Key} for {visitor}: {(int)answer.StatusCode} {answer.Headers.Location}, expected {expected}");
            if (line.Verb == "GET" && Counted.Contains(visitor) && Ran(line, answer) && TooMany(line) is { } many)
                wrong.Add($"{line.Key} for {visitor}: {many}");
            if (expected is not Answer.NotFound || line.Subject is Subject.None or Subject.Learners)
                continue;
            // What is forbidden looks like what does not exist.
            var kind = (line.Verb, answer.StatusCode);
            if (AsksForAbsent.Contains(visitor) || !looks.ContainsKey(kind))
            {
                using var missing = await SendAsync(browser, line, absent[line.Key]);
                var look = await LookAsync(missing);
                if (!looks.TryAdd(kind, look) && looks[kind] != look)
                    wrong.Add($"{line.Key} for {visitor}: what does not exist looks otherwise than elsewhere");
            }
            if (await LookAsync(answer) is var seen && looks[kind] != seen)
                wrong.Add($"{line.Key} for {visitor}: does not look like what does not exist: {FirstUnlike(looks[kind], seen)}");
        }
        if (visitor is not Visitor.SignedOut)
        {
            var rows = (await world.AccessesAsync(before, world.PersonOf(visitor))).ToLookup(r => r.Page);
            wrong.AddRange(AccessMatrix.Read().Lines.Select(line => NotRecorded(line, visitor, rows[line.Key])).OfType<string>());
        }
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    /// <summary>What is missing in the record of access after one request: who, on what ground, which page, whose record, when and from where (34 CFR 300.614,
    /// ASVS 16.2.1); a refusal leaves its line too (16.3.2). Null where nothing is.</summary>
    private string? NotRecorded(AccessLine line, Visitor visitor, IEnumerable<AccessRow> rows)
    {
        var expected = Expected.Of(line, visitor);
        var isNobodys = line.Subject is Subject.None or Subject.Person && expected is not Answer.NotFound;
        if (isNobodys || expected is not (Answer.Opened or Answer.NotFound) || line.IsOpenToAnyone || line.Page.StartsWith("/device/", StringComparison.Ordinal))
            return null;
        var isAbout = line.Subject is not (Subject.None or Subject.Learners or Subject.Person) && visitor is not Visitor.OtherAgency;
        return rows.Any(r => r.Refused == (expected is Answer.NotFound) && (r.Ground == "none") == r.Refused
            && (!isAbout || r.LearnerIds.SequenceEqual([world.Wren.Learner.Id])) && r.Address == AccessWorld.From)
            ? null : $"{line.Key} for {visitor}: {expected}, and not so on record ({string.Join("; ", rows.Select(r => $"{r.Ground}, refused {r.Refused}, {r.Address}"))})";
    }

    [Fact]
    public async Task Page_whose_record_of_access_cannot_be_written_is_not_shown()
    {
        var browser = await world.BrowserAsync(Visitor.CaseManager);
        var address = $"/learners/{world.Wren.Learner.Id}";
        Assert.Contains(world.Wren.Learner.Name, await browser.GetStringAsync(new Uri(address, UriKind.Relative), Stop), StringComparison.Ordinal);
        await world.AsOwnerAsync("revoke insert on portal.accesses from teamcircle_person, teamcircle_agency");
        try
        {
            using var answer = await browser.GetAsync(new Uri(address, UriKind.Relative), Stop);
            Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
            Assert.DoesNotContain(world.Wren.Learner.Name, await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        }
        finally
        {
            await world.AsOwnerAsync("grant insert on portal.accesses to teamcircle_person, teamcircle_agency");
        }
    }

    [Theory]
    [InlineData(Visitor.Administrator)]
    [InlineData(Visitor.Director)]
    public async Task Whoever_said_why_is_let_in_for_an_hour_and_not_longer(Visitor visitor)
    {
        using var browser = await world.NewBrowserAsync(visitor);
        using var said = await browser.SendFormAsync("/reason", new Dictionary<string, string> { ["Input.Reason"] = "the family asked who comes", ["Then"] = "/account" });
        Assert.Equal("/account", said.Headers.Location?.OriginalString);

        var lines = (await LinesAsync(world.IdOf)).Where(l => l.Line.Verb == "GET" && l.Line.Who.Contains(Ground.AdministratorReason)).ToList();
        foreach (var (line, address) in lines)
        {
            using var answer = await SendAsync(browser, line, address);
            Assert.Equal((line.Key, Expected.Of(line, visitor, saidWhy: true)), (line.Key, AnswerOf(line, answer)));
        }
        var read = lines.First(l => l.Line.Who[0] is Ground.AdministratorReason || Expected.Of(l.Line, visitor) is Answer.AskedWhy);
        Assert.Contains(await world.AccessesAsync(0, world.PersonOf(visitor)), r => r.Page == read.Line.Key && r.Ground.EndsWith(": the family asked who comes", StringComparison.Ordinal));
        using var ended = await browser.SendFormAsync("/reason?handler=End", new Dictionary<string, string>(), tokenFrom: "/reason");
        using var after = await SendAsync(browser, read.Line, read.Address);
        Assert.Equal(Answer.AskedWhy, AnswerOf(read.Line, after));
    }

    [Theory]
    [InlineData(-30, -1)]
    [InlineData(1, 30)]
    public async Task Reviewer_finds_nothing_before_the_first_day_and_after_the_last(int first, int last)
    {
        var today = LocalDate.FromDateTime(world.Clock.GetUtcNow().Date);
        Task DatesAsync(LocalDate from, LocalDate? to) =>
            world.Agency.ChangeAsync<RelationRow>(r => r.PersonId == world.PersonOf(Visitor.Reviewer), r => (r.FromDay, r.ToDay) = (from, to));
        await DatesAsync(today.PlusDays(first), today.PlusDays(last));
        try
        {
            var browser = await world.BrowserAsync(Visitor.Reviewer);
            foreach (var (line, address) in (await LinesAsync(world.IdOf)).Where(l => l.Line.Who.Contains(Ground.Reviewer)))
            {
                using var answer = await SendAsync(browser, line, address);
                Assert.Equal((line.Key, Answer.NotFound), (line.Key, AnswerOf(line, answer)));
            }
            Assert.DoesNotContain(world.Wren.Learner.Name, await browser.GetStringAsync(new Uri("/review", UriKind.Relative), Stop), StringComparison.Ordinal);
        }
        finally
        {
            await DatesAsync(new LocalDate(2026, 8, 1), null);
        }
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(1)]
    public async Task Substitute_finds_nothing_the_day_before_and_the_day_after(int days)
    {
        Task DayAsync(LocalDate day) =>
            world.Agency.ChangeAsync<RelationRow>(r => r.PersonId == world.PersonOf(Visitor.Substitute), r => (r.FromDay, r.ToDay) = (day, day));
        await DayAsync(world.Today.PlusDays(-days));
        try
        {
            var (browser, open) = (await world.BrowserAsync(Visitor.Substitute), new List<string>());
            foreach (var (line, address) in (await LinesAsync(world.IdOf)).Where(l => l.Line.Who.Contains(Ground.Team)))
            {
                using var answer = await SendAsync(browser, line, address);
                if (AnswerOf(line, answer) is not Answer.NotFound)
                    open.Add(line.Key);
            }
            Assert.Equal("", string.Join('\n', open));
            foreach (var list in new[] { "/", "/caseload", "/calendar", "/audit" })
                Assert.DoesNotContain(world.Wren.Learner.Name, await browser.GetStringAsync(new Uri(list, UriKind.Relative), Stop), StringComparison.Ordinal);
        }
        finally
        {
            await DayAsync(world.Today);
        }
    }

    [Fact]
    public async Task Reviewer_reads_no_note_of_the_staff_and_leaves_the_authority_in_the_record()
    {
        await world.Agency.ChangeAsync<RelationRow>(r => r.PersonId == world.PersonOf(Visitor.Reviewer), r => r.Ground = "letter of the state office");
        var browser = await world.BrowserAsync(Visitor.Reviewer);
        foreach (var (line, address) in (await LinesAsync(world.IdOf)).Where(l => l.Line.Who.Contains(Ground.Reviewer) && l.Line.Verb == "GET"))
        {
            using var answer = await SendAsync(browser, line, address);
            Assert.DoesNotContain(WrensRecord.StaffOnly, await answer.Content.ReadAsStringAsync(Stop), StringComparison.OrdinalIgnoreCase);
        }

        var grounds = await world.Agency.Portal.ReadAsync(world.Agency.WholeAgency, db => db.Accesses
            .Where(a => a.PersonId == world.PersonOf(Visitor.Reviewer) && a.Page == "GET /Monitoring/File" && !a.Refused).Select(a => a.Ground).ToListAsync(Stop));
        Assert.Contains("reviewer, disclosure: letter of the state office", grounds);
    }

    [Fact]
    public async Task Form_without_the_proof_that_it_came_from_us_is_refused_by_every_handler()
    {
        var accepted = new List<string>();
        foreach (var visitor in new[] { Visitor.SignedOut, Visitor.CaseManager, Visitor.Administrator })
        {
            var browser = await world.BrowserAsync(visitor);
            foreach (var (line, address) in (await LinesAsync(world.IdOf)).Where(l => l.Line.Verb == "POST" && l.Line.Page != FromAnywhere))
            {
                using var form = new FormUrlEncodedContent([]);
                using var answer = await browser.PostAsync(new Uri(address, UriKind.Relative), form, Stop);
                if (answer.StatusCode != HttpStatusCode.BadRequest || Ran(line, answer))
                    accepted.Add($"{line.Key} for {visitor}: {(int)answer.StatusCode}");
            }
        }
        Assert.True(accepted.Count == 0, string.Join('\n', accepted));
    }

    [Fact]
    public async Task Looking_at_every_page_changes_no_table()
    {
        var visitors = new[] { Visitor.CaseManager, Visitor.Administrator, Visitor.Family };
        foreach (var visitor in visitors)
            await world.BrowserAsync(visitor); // a sign-in is a change, so before the first look
        var before = await TableSums.ReadAsync(world.Database);
        foreach (var visitor in visitors)
        {
            foreach (var (line, address) in (await LinesAsync(world.IdOf)).Where(l => l.Line.Verb == "GET"))
                (await SendAsync(await world.BrowserAsync(visitor), line, address)).Dispose();
        }

        Assert.Equal(before, await TableSums.ReadAsync(world.Database));
    }

    [Fact]
    public async Task Family_page_says_nothing_that_is_for_staff_only()
    {
        var browser = await world.BrowserAsync(Visitor.Family);
        foreach (var (line, address) in (await LinesAsync(world.IdOf)).Where(l => l.Line.Verb == "GET" && Expected.Of(l.Line, Visitor.Family) is Answer.Opened))
        {
            using var answer = await SendAsync(browser, line, address);
            var page = await answer.Content.ReadAsStringAsync(Stop);
            // The case manager's address is there on purpose: whom to ask.
            foreach (var staffOnly in new[] { WrensRecord.StaffOnly, world.Jonah.Name, world.EmailOf(Visitor.ProviderOnTeam) })
                Assert.DoesNotContain(staffOnly, page, StringComparison.OrdinalIgnoreCase);
        }
    }

    private async Task<IReadOnlyList<(AccessLine Line, string Address)>> LinesAsync(Func<Subject, string> idOf)
    {
        var pages = (await Handlers.PagesAsync(world)).ToLookup(p => p.ViewEnginePath);
        return [.. AccessMatrix.Read().Lines.Where(l => pages.Contains(l.Page) && l.Page != "/Problem")
            .Select(l => (l, Handlers.AddressOf(pages[l.Page].First(), l.Handler, name => ValueOf(l, name, idOf))))];
    }

    private string ValueOf(AccessLine line, string parameter, Func<Subject, string> idOf) => (parameter, line.Page) switch
    {
        ("key", "/Account/Join") => world.JoinKey,
        ("key", "/Account/NewPassword") => world.NewPasswordKey,
        ("key", "/Account/NewEmail") => world.NewEmailKey,
        ("agency", _) => world.Agency.Code,
        ("key", "/Account/Unsubscribe") => world.UnsubscribeKey,
        ("guide", _) => "reviewer",
        ("name", "/Guide/Picture") => "today.png",
        ("id", _) => idOf(line.Subject),
        _ => $"{world.Wren.Others[parameter]}",
    };

    /// <summary>A browser to itself for the one act that would sign the others out; null elsewhere.</summary>
    private async Task<HttpClient?> OwnBrowserAsync(AccessLine line, Visitor visitor) =>
        line is { Page: "/Account/SignOut", Verb: "POST" } ? await world.NewBrowserAsync(visitor) : null;

    private async Task<HttpResponseMessage> SendAsync(HttpClient browser, AccessLine line, string address)
    {
        if (line.Verb == "GET")
            return await browser.GetAsync(new Uri(address, UriKind.Relative), Stop);
        using var form = new FormUrlEncodedContent([new("__RequestVerificationToken", await ProofAsync(browser))]);
        return await browser.PostAsync(new Uri(address, UriKind.Relative), form, Stop);
    }

    /// <summary>The proof that a form came from us, good for every form of this browser: read once, not before each of hundreds.</summary>
    private async Task<string> ProofAsync(HttpClient browser)
    {
        if (_proofs.TryGetValue(browser, out var known))
            return known;
        using var signIn = await browser.GetAsync("/sign-in", Stop);
        return _proofs[browser] = await browser.TokenAsync(signIn.StatusCode is HttpStatusCode.OK ? "/sign-in" : "/sign-out");
    }

    private static bool Ran(AccessLine line, HttpResponseMessage answer) =>
        answer.Headers.TryGetValues(HandlerWatch.Ran, out var ran) && ran.Contains(line.Page);

    private static Answer? AnswerOf(AccessLine line, HttpResponseMessage answer)
    {
        if (Ran(line, answer))
            return (int)answer.StatusCode < 500 ? Answer.Opened : null;
        return (answer.StatusCode, answer.Headers.Location?.OriginalString) switch
        {
            (HttpStatusCode.NotFound, _) => Answer.NotFound,
            (HttpStatusCode.Redirect, var to) when to!.StartsWith("/sign-in?then=", StringComparison.Ordinal) => Answer.AskedToSignIn,
            (HttpStatusCode.Redirect, var to) when to!.StartsWith("/account/factors", StringComparison.Ordinal) => Answer.AskedForSecondStep,
            (HttpStatusCode.Redirect, "/agency") => Answer.AskedForAgency,
            (HttpStatusCode.Redirect, var to) when to!.StartsWith("/reason?then=", StringComparison.Ordinal) => Answer.AskedWhy,
            // A family or a reviewer that asks for the portal's first page is led to their own.
            (HttpStatusCode.Redirect, var to) when to!.StartsWith("/family/", StringComparison.Ordinal) || to == "/review" => Answer.NotFound,
            _ => null,
        };
    }

    private static string FirstUnlike(string one, string other)
    {
        var at = Math.Max(0, one.Zip(other).TakeWhile(pair => pair.First == pair.Second).Count() - 20);
        string Part(string text) => text.Substring(at, Math.Min(80, text.Length - at));
        return $"{Part(one)} | {Part(other)}";
    }

    /// <summary>All that can be seen of an answer, but for the time.</summary>
    private static async Task<string> LookAsync(HttpResponseMessage answer) =>
        $"{(int)answer.StatusCode} {string.Join('\n', answer.Headers.Where(h => h.Key != "Date").Select(h => $"{h.Key}: {string.Join(',', h.Value)}"))}\n"
        + await answer.Content.ReadAsStringAsync(Stop);
}
