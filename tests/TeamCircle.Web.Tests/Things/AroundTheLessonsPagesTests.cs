using System.Net;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Road;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Road;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Pages.Road;

namespace TeamCircle.Web.Tests.Things;

/// <summary>Over HTTP: a switch that breaks and the chart that it explains, a tap in Spanish, a month on the road, an 18th birthday.</summary>
public sealed class AroundTheLessonsPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private int Wren => portal.Team.Wren.Id;

    private Task<RoutineRow> RoutineAsync(string name) => portal.Agency.AddAsync(new RoutineRow { LearnerId = Wren, Name = name });

    [Fact]
    public async Task Broken_switch_is_noted_with_one_form_and_said_on_the_card_and_on_the_goals_chart()
    {
        var (marisol, bram) = (await portal.BrowserAsync(portal.Team.Marisol), await portal.BrowserAsync(portal.Team.Bram));
        var goal = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Goals.Where(g => g.LearnerId == Wren && db.Probes.Any(p => p.GoalId == g.Id)).Select(g => g.Id).FirstAsync(Stop), Stop);
        var probed = await portal.Agency.Portal.ReadAsync(portal.Agency.WholeAgency, db => db.Probes.Where(p => p.GoalId == goal && p.Live).MaxAsync(p => p.OnDay, Stop), Stop);
        var routine = await RoutineAsync("Shake with the palm switch");
        var promise = await FilledForm.OpenAsync(marisol, $"/learners/{Wren}/things/promise", "main form[method=post]");
        await promise.Type("Input.Name", "Palm switch").Tick("Input.Kind", "Device").Type("Input.Owner", $"{portal.Team.Tomasz.Id}").Type("Input.PromisedOn", "2026-08-17")
            .Tick("Input.Goals", $"{goal}").Tick("Input.Routines", $"{routine.Id}").SaveAsync();
        var list = FilledForm.Parse(await bram.GetStringAsync(new Uri($"/learners/{Wren}/things", UriKind.Relative), Stop));
        var thing = list.QuerySelectorAll("main a").Single(a => a.TextContent == "Palm switch").GetAttribute("href")!;
        Assert.Contains("46 days, 33 of them school days so far", list.QuerySelector("main")!.TextContent, StringComparison.Ordinal); // 18 August to 2 October, without Labor Day

        await (await FilledForm.OpenAsync(bram, thing, "form:has([name='Input.Act'][value=InPlace])")).Type("Input.OnDay", "2026-09-01").SaveAsync("Note");
        var refused = await (await FilledForm.OpenAsync(bram, thing, "form:has([name='Input.Act'][value=Broken])")).SendForAgainAsync("Note");
        Assert.Contains("Say in a few words what happened.", refused.Words, StringComparison.Ordinal);
        await (await FilledForm.OpenAsync(bram, thing, "form:has([name='Input.Act'][value=Broken])"))
            .Type("Input.OnDay", $"{probed:uuuu-MM-dd}").Type("Input.Words", "the cable is torn").Type("Input.Meanwhile", "use the elbow switch").SaveAsync("Note");

        Assert.Contains("The cable is torn. Meanwhile: Use the elbow switch.", await WordsAsync(bram, $"/routines/{routine.Id}"), StringComparison.Ordinal);
        var chart = FilledForm.Parse(await bram.GetStringAsync(new Uri($"/goals/{goal}", UriKind.Relative), Stop));
        Assert.Equal([$"{probed:uuuu-MM-dd}", "2026-10-02"], chart.QuerySelectorAll("[data-outage] time").Select(t => t.GetAttribute("datetime")!));
        Assert.Contains(chart.QuerySelectorAll("tr[data-point]"), row => row.TextContent.Contains("Palm switch out of order", StringComparison.Ordinal));
        Assert.DoesNotContain(chart.QuerySelectorAll("[data-mark]"), mark => mark.TextContent.Contains("Palm switch", StringComparison.Ordinal));
        Assert.Contains("Palm switch: out of order", await WordsAsync(await portal.BrowserAsync(portal.Team.Tomasz), "/"), StringComparison.Ordinal);
        Assert.Contains("Palm switch: out of order", await WordsAsync(bram, $"/learners/{Wren}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Mother_taps_in_her_language_and_the_team_reads_a_plain_list_of_days()
    {
        var (dele, marisol, ines) = (await portal.BrowserAsync(portal.Team.Dele), await portal.BrowserAsync(portal.Team.Marisol), await portal.BrowserAsync(portal.Team.Ines));
        var routine = await RoutineAsync("Towel in the evening");
        await portal.Agency.AddAsync(new HomePracticeRow { LearnerId = Wren, RoutineId = routine.Id, Weekday = IsoDayOfWeek.Monday });
        Assert.Contains("You cannot tap here", await WordsAsync(ines, $"/family/{Wren}/at-home?in=en"), StringComparison.Ordinal);
        await (await FilledForm.OpenAsync(dele, "/settings/family", "form[action*='handler=Home']")).Type("Home.On", "true").Type("Home.Why", "The board wants it.").SaveAsync();
        await (await FilledForm.OpenAsync(marisol, $"/learners/{Wren}/at-home", "form:has([name='Letting.Person'])")).SaveAsync();

        var form = await FilledForm.OpenAsync(ines, $"/family/{Wren}/at-home?in=es", $"form:has([name='Input.Routine'][value='{routine.Id}'])");
        Assert.Equal(["Lo hicimos", "No se pudo", "Lo dejamos"], form.Page.QuerySelectorAll($"form:has([value='{routine.Id}']) button").Select(b => b.TextContent.Trim()));
        var said = await form.Tick("Input.Answer", "NotUpToIt").SaveAsync();

        Assert.Contains("Towel in the evening: No se pudo", Flat(said), StringComparison.Ordinal);
        Assert.Contains("Towel in the evening: not up to it, Ines Belmares", await WordsAsync(marisol, $"/learners/{Wren}/at-home"), StringComparison.Ordinal);
        Assert.DoesNotContain("%", said, StringComparison.Ordinal);
        var undone = await (await FilledForm.OpenAsync(ines, $"/family/{Wren}/at-home?in=es", "form:has([name='Back.Tap'])")).SaveAsync();
        Assert.DoesNotContain("Towel in the evening: No se pudo", Flat(undone), StringComparison.Ordinal);
    }

    [Fact]
    public void Way_of_which_nothing_is_known_is_a_dash_and_stands_once_with_all_its_days()
    {
        var places = new Dictionary<int, RoadPlace> { [1] = new("BASE", "The office", null), [2] = new("HERON", "The house by the pond", null) };
        RoadDay On(int day, int? tenths) => new(new(2026, 10, day), [], [new(1, 2, 15, tenths)]);
        var month = new RoadMonth("Bram Nakamura", "Tallow Fern", new(2026, 10), DistanceUnit.Mile, true, [On(5, null), On(6, null), On(7, 84)], places);

        Assert.Equal(["– *", "– *", "8.4"], month.Days.Select(d => RoadWords.Known(d, l => l.Tenths, RoadWords.Number)));
        Assert.Equal(["BASE to HERON, distance not known: Mon 5 Oct, Tue 6 Oct"], RoadWords.Unknown(month));
    }

    [Fact]
    public async Task Month_on_the_road_is_a_sheet_of_codes_for_oneself_and_the_administrator()
    {
        var place = await portal.Agency.AddAsync(new PlaceRow { Code = "HERON", Name = "The house by the pond", Kind = Place.Home });
        await portal.Agency.AddAsync(new LearnerPlaceRow { LearnerId = portal.Team.Sefa.Id, Kind = Place.Home, PlaceId = place.Id });
        var (bram, dele) = (await portal.BrowserAsync(portal.Team.Bram), await portal.BrowserAsync(portal.Team.Dele));

        var own = await WordsAsync(bram, "/road/month?month=2026-09");
        var paid = await WordsAsync(dele, $"/settings/people/{portal.Team.Bram.Id}/road?month=2026-09");
        using var file = await bram.GetAsync(new Uri("/road/month?handler=Csv&month=2026-09", UriKind.Relative), Stop);

        Assert.StartsWith("date,from,to,minutes,miles,learners of the day", (await file.Content.ReadAsStringAsync(Stop)).TrimStart('\uFEFF'), StringComparison.Ordinal);
        foreach (var sheet in new[] { own, paid })
        {
            Assert.Contains("TF-0", sheet, StringComparison.Ordinal);
            Assert.DoesNotContain("Sefa", sheet, StringComparison.Ordinal);
        }
        using var others = await bram.GetAsync(new Uri($"/settings/people/{portal.Team.Odalys.Id}/road", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, others.StatusCode);
    }

    [Fact]
    public async Task Family_of_a_learner_who_came_of_age_reads_why_the_page_is_gone_and_whom_to_ask()
    {
        var jonah = portal.Team.Jonah.Id;
        var father = await portal.Agency.AddAsync(new PersonRow { Name = "Harun Tarrow", Email = "harun@family.example" });
        await portal.Agency.AddAsync(new PersonRoleRow { PersonId = father.Id, Role = Role.Family, FromDay = new(2026, 8, 17) });
        await portal.Agency.AddAsync(new RelationRow { PersonId = father.Id, LearnerId = jonah, Kind = Relation.Family, FromDay = new(2026, 8, 17) });
        await portal.AddAccountsAsync();
        var browser = await portal.BrowserAsync(father);
        Assert.DoesNotContain("come of age", await WordsAsync(browser, "/account"), StringComparison.Ordinal);

        await portal.Agency.AddAsync(new BirthRow { LearnerId = jonah, BornOn = new(2008, 10, 2), EnteredBy = portal.Team.Marisol.Id });

        using var first = await browser.GetAsync(new Uri("/", UriKind.Relative), Stop);
        Assert.Equal("/account", first.Headers.Location?.OriginalString);
        var account = await WordsAsync(browser, "/account?in=es");
        Assert.Contains("Con la mayoría de edad", account, StringComparison.Ordinal);
        Assert.Contains("Pregunte en Tallowfern Education Cooperative", account, StringComparison.Ordinal);
        Assert.DoesNotContain("Jonah", account, StringComparison.Ordinal);
    }

    private static async Task<string> WordsAsync(HttpClient browser, string path) =>
        Flat(FilledForm.Parse(await browser.GetStringAsync(new Uri(path, UriKind.Relative), Stop)).QuerySelector("main")!.TextContent);

    private static string Flat(string words) => string.Join(' ', words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
