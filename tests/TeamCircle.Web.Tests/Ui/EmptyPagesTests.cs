using System.Globalization;
using AngleSharp.Dom;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Startup.Access;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Ui;

/// <summary>An agency on its first day: an administrator, a case manager, and one learner of whom nothing is on record yet.</summary>
public sealed class EmptyAgency(PgAssembly server) : AgencyPortal(server)
{
    public LearnerRow Learner { get; private set; } = null!;

    private readonly Dictionary<Role, PersonRow> _people = [];

    public Task<HttpClient> BrowserAsync(Role role) => SignedInAsync(_people[role].Email);

    public PersonRow Of(Role role) => _people[role];

    protected override async Task FillAsync()
    {
        Learner = await Agency.AddAsync(new LearnerRow { Code = "NEW", Name = "Nell Harbin", MostMinutesADay = 60 });
        foreach (var role in new[] { Role.Administrator, Role.Director, Role.CaseManager, Role.Provider, Role.Reviewer })
        {
            var person = _people[role] = await Agency.AddAsync(new PersonRow { Email = $"{role}@tallowfern.example".ToLowerInvariant(), Name = $"{role} Person" });
            await Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = role, FromDay = new(2026, 8, 1) });
        }
        await Agency.AddAsync(new RelationRow { PersonId = _people[Role.CaseManager].Id, LearnerId = Learner.Id, Kind = Relation.CaseManager, FromDay = new LocalDate(2026, 8, 1) });
    }
}

/// <summary>Where there is nothing yet, every page says so, and what comes next.</summary>
public sealed class EmptyPagesTests(EmptyAgency portal) : IClassFixture<EmptyAgency>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <summary>What ends with its words, and why no act follows.</summary>
    private static readonly Dictionary<string, string> NothingNext = new()
    {
        ["No service ran on this day."] = "the day is chosen at the head of the page",
        ["No goal ran on this day."] = "the day is chosen at the head of the page",
        ["No visit stands on these days."] = "the day is chosen at the head of the page",
        ["Nothing was decided about these days."] = "the day is chosen at the head of the page",
        ["Nothing was destroyed or stopped yet."] = "good so: nobody needs to destroy anything",
    };

    [Theory]
    [InlineData(Role.Administrator)]
    [InlineData(Role.Director)]
    [InlineData(Role.CaseManager)]
    [InlineData(Role.Provider)]
    [InlineData(Role.Reviewer)]
    public async Task No_list_is_blank_and_every_empty_one_names_the_next_act(Role role)
    {
        var browser = await portal.BrowserAsync(role);
        var (blank, opened) = (new List<string>(), 0);
        foreach (var address in await AddressesAsync(role))
        {
            using var answer = await browser.GetAsync(new Uri(address, UriKind.Relative), Stop);
            if (!answer.IsSuccessStatusCode || answer.Content.Headers.ContentType?.MediaType != "text/html")
                continue;
            opened++;
            var main = FilledForm.Parse(await answer.Content.ReadAsStringAsync(Stop)).QuerySelector("main")!;
            blank.AddRange(Blank(main).Select(what => $"{address}: {what}"));
        }

        Assert.True(blank.Count == 0, string.Join("; ", blank));
        Assert.True(opened > 3, $"{role} opened {opened} pages.");
    }

    private static IEnumerable<string> Blank(IElement main) =>
    [
        .. main.QuerySelectorAll("ul, ol, dl, tbody").Where(l => l.ChildElementCount == 0).Select(l => $"an empty {l.LocalName} under '{Heading(l)}'"),
        .. main.QuerySelectorAll("section.part").Where(s => s.TextContent.Trim() == (s.QuerySelector("h2")?.TextContent.Trim() ?? "")).Select(s => $"nothing under '{Heading(s)}'"),
        .. main.QuerySelectorAll(".empty").Where(e => !NothingNext.ContainsKey(Words(e)) && !LeadsOn(e)).Select(e => $"no next act after '{Words(e)}'"),
    ];

    /// <summary>By a link of its own, by a sentence that says who acts, or by a link or form that stands in the same part.</summary>
    private static bool LeadsOn(IElement empty) =>
        empty.QuerySelector("a, p + p") is not null || (empty.Closest("section.part") ?? empty.ParentElement!).QuerySelector("a, form, button") is not null;

    private static string Heading(IElement element) => Words(element.Closest("section")?.QuerySelector("h2") ?? element.Owner!.QuerySelector("h1")!);

    private static string Words(IElement element) => string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Every page that is about nobody, about a list, about that learner or about oneself, as the matrix has it.</summary>
    private async Task<IReadOnlyList<string>> AddressesAsync(Role role)
    {
        var pages = (await Handlers.PagesAsync(portal)).ToLookup(p => p.ViewEnginePath);
        string? IdOf(Subject subject) => subject switch
        {
            Subject.Learner => portal.Learner.Id.ToString(CultureInfo.InvariantCulture),
            Subject.Person => portal.Of(role).Id.ToString(CultureInfo.InvariantCulture),
            _ => null,
        };
        return [.. AccessMatrix.Read().Lines
            .Where(l => l is { Verb: "GET", Handler: "" } && pages.Contains(l.Page) && !l.Page.StartsWith("/Account/", StringComparison.Ordinal) && l.Page != "/Problem")
            .Where(l => !pages[l.Page].First().AttributeRouteInfo!.Template!.Replace("{id", "", StringComparison.Ordinal).Contains('{'))
            .Where(l => l.Subject is Subject.None or Subject.Learners || IdOf(l.Subject) is not null)
            .Select(l => Handlers.AddressOf(pages[l.Page].First(), "", _ => IdOf(l.Subject)!))];
    }
}
